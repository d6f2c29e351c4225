/** Where each unknown stands in the filter's state. */

/** Unknowns of the bed as a whole, in their order. */
export const GLOBALS = [
  'surface',
  'open',
  'ground',
  'deep',
  'upper',
  'lower',
  'roots',
  'fresh',
  'q10',
  'settling',
  'rootsX',
  'rootsY',
  'rootsZ',
  'faster',
  'aroundBetter',
  'sunk',
] as const;
export type Global = (typeof GLOBALS)[number];

export const GLOBAL: Readonly<Record<Global, number>> = Object.fromEntries(
  GLOBALS.map((name, index) => [name, index]),
) as Record<Global, number>;

/** Unknowns of each probe: offset °C, place along x, y and depth cm, and the daily wave's two parts °C. */
export const OF_PROBE = { offset: 0, x: 1, y: 2, depth: 3, wave: 4, quadrature: 5, roots: 6 } as const;
export const PER_PROBE = 7;

/** Days whose surface may have been otherwise than the shade says. */
export const DAYS = 20;

export class Layout {
  readonly probes: number;
  readonly size: number;

  constructor(probes: number) {
    this.probes = probes;
    this.size = GLOBALS.length + PER_PROBE * probes + DAYS;
  }

  probe(index: number, unknown: keyof typeof OF_PROBE): number {
    return GLOBALS.length + PER_PROBE * index + OF_PROBE[unknown];
  }

  /** Of a day counted from any beginning: slots are used again after `DAYS`. */
  day(day: number): number {
    return GLOBALS.length + PER_PROBE * this.probes + (((day % DAYS) + DAYS) % DAYS);
  }
}
