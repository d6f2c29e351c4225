/** Normal observations from a seed: a sum of twelve uniform ones would miss the tails, so Box and Muller. */
export function seededNormal(seed: number): () => number {
  let state = seed >>> 0;
  // Mulberry-like mixing of a Weyl sequence: good enough for some hundred thousand draws.
  const uniform = (): number => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return ((mixed ^ (mixed >>> 16)) >>> 0) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}
