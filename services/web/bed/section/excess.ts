/** Steps of the excess, each with its own shape and colour: cooler, as a sound bed, and three warmer ones. */
export const EXCESS_STEPS = ['cooler', 'even', 'little', 'warmer', 'much'] as const;
export type ExcessStep = (typeof EXCESS_STEPS)[number];
export type Shown = ExcessStep | 'unknown';

/**
 * Where one step ends and the next begins, °C. Judgement: a sound bed stays within 0.3 °C of what is expected in most
 * hours, and 0.7 °C is about where the watch asks to unpack.
 */
export const EXCESS_BORDERS_C = [-0.3, 0.3, 0.7, 1.5] as const;

/** @param excess_C measured less expected; `unknown` where there is none */
export function excessStep(excess_C: number | null | undefined): Shown {
  if (excess_C == null || !Number.isFinite(excess_C)) return 'unknown';
  return EXCESS_STEPS[EXCESS_BORDERS_C.filter((border) => excess_C > border).length] ?? 'unknown';
}

/**
 * Outlines in a square of 24 about its middle, known by their shape alone: a basin, a disc, a drop, a lozenge, a star;
 * an open square for what is not known.
 */
export const MARKS: Readonly<Record<Shown, string>> = {
  unknown: 'M-7-7H7V7H-7Z',
  cooler: 'M-9-5H9C8 4 4 8 0 8S-8 4-9-5Z',
  even: 'M0-8A8 8 0 1 1 0 8 8 8 0 1 1 0-8Z',
  little: 'M0-11C4-5 8-1 8 3.500A8 7.500 0 0 1-8 3.500C-8-1-4-5 0-11Z',
  warmer: 'M0-11 10 0 0 11-10 0Z',
  much: 'M0-12 3-5 10-7 7 0 11 6 4 6 0 12-4 6-11 6-7 0-10-7-3-5Z',
};
