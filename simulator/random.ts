/** Chance with a seed: the same seed gives the same season. */

/** Numbers in [0, 1). */
export type Random = () => number;

/**
 * Mulberry32 (public domain): 32 bits of state, one multiplication chain a number. Enough for weather and noise;
 * not for secrets.
 */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** A generator of its own for a part of the simulation, so that adding a probe does not change the weather. */
export function randomFor(seed: number, ...names: readonly string[]): Random {
  // FNV-1a, 32 bits: offset basis 2166136261, prime 16777619.
  let hash = 2_166_136_261 ^ seed;
  for (const letter of names.join('/')) hash = Math.imul(hash ^ letter.charCodeAt(0), 16_777_619);
  return seededRandom(hash);
}

/** Normal with mean 0 and standard deviation 1: Box and Muller (1958), the cosine of each pair. */
export function normal(random: Random): number {
  const radius = Math.sqrt(-2 * Math.log(1 - random()));
  return radius * Math.cos(2 * Math.PI * random());
}

/** The seed of a series of seasons: those of another series have nothing in common with it but their numbers. */
export const seedOfSeries = (seed: number, series: string): number =>
  series === '' ? seed : Math.floor(randomFor(seed, 'series', series)() * 4_294_967_296);
