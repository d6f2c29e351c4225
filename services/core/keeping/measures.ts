/** Lengths in hands, spans, forearms and strides, as long as the user's own, for whoever has no tape measure. */
import { requireInDomain } from '../errors.js';
import { figureOf } from './plan-figures.js';

/** Lengths of the user's own body, cm. */
export interface Measures {
  /** Breadth of a hand with its thumb. */
  readonly hand_cm: number;
  /** Thumb to little finger, spread. */
  readonly span_cm: number;
  /** Elbow to finger tips. */
  readonly forearm_cm: number;
  /** Heel to heel in an easy walk. */
  readonly stride_cm: number;
}

export const USUAL_MEASURES: Measures = {
  hand_cm: figureOf('hand'),
  span_cm: figureOf('span'),
  forearm_cm: figureOf('forearm'),
  stride_cm: figureOf('stride'),
};

/** What a grown or nearly grown person can have, cm. Judgement: beyond it is a slip of the keyboard. */
export const MEASURE_LIMITS: Readonly<
  Record<keyof Measures, { readonly low: number; readonly high: number }>
> = {
  hand_cm: { low: 5, high: 15 },
  span_cm: { low: 12, high: 30 },
  forearm_cm: { low: 30, high: 60 },
  stride_cm: { low: 40, high: 120 },
};

/**
 * From the longest: of those that show a length well enough the longest is named. With the parts that an eye halves them
 * into, and how many of those there are at the least: half a span is better said as a hand.
 */
const UNITS = [
  ['stride_cm', 'stride', 1, 1],
  ['forearm_cm', 'forearm', 1, 1],
  ['span_cm', 'span', 2, 2],
  ['hand_cm', 'hand', 2, 1],
] as const satisfies readonly (readonly [keyof Measures, string, number, number])[];

const HAND = UNITS[3];

/** Well enough: off by no more than so much, or by so much of the length. Judgement: what a hand on a wall is exact to. */
const CLOSE_cm = 1.5;
const CLOSE_SHARE = 0.03;

/** More of one unit are counted wrongly. Judgement. */
const MOST_COUNTED = 12;

/** @throws SandlarderError OUT_OF_DOMAIN */
export function requireMeasures(measures: Measures): void {
  for (const [key, word] of UNITS) {
    const { low, high } = MEASURE_LIMITS[key];
    requireInDomain(`${word}, cm,`, measures[key], low, high);
  }
}

interface Counted {
  readonly word: string;
  readonly count: number;
  readonly off_cm: number;
}

function counted(
  length_cm: number,
  measures: Measures,
  [key, word, parts, least]: (typeof UNITS)[number],
): Counted {
  const count = Math.max(least, Math.round((parts * length_cm) / measures[key])) / parts;
  return { word, count, off_cm: Math.abs(count * measures[key] - length_cm) };
}

function inWords({ count, word }: Counted): string {
  const whole = Math.floor(count);
  return `${whole > 0 ? whole : ''}${count > whole ? '½' : ''} ${word}${count > 1 ? 's' : ''}`;
}

/**
 * A length in one unit: `2 strides`, `2½ hands`, `about 6 spans`.
 *
 * @param length_cm 5 to 10,000
 * @returns the longest unit that is off by at most 1.5 cm or 3 %; else, as `about`, the one that is off least
 * @throws SandlarderError OUT_OF_DOMAIN also for measures that nobody has
 */
export function inMeasures(length_cm: number, measures: Measures = USUAL_MEASURES): string {
  requireInDomain('length, cm,', length_cm, 5, 10_000);
  requireMeasures(measures);
  const each = UNITS.map((unit) => counted(length_cm, measures, unit));
  const countable = each.filter(({ count }) => count <= MOST_COUNTED);
  const close = countable.find(({ off_cm }) => off_cm <= Math.max(CLOSE_cm, CLOSE_SHARE * length_cm));
  if (close) return inWords(close);
  const from = countable.length > 0 ? countable : each.slice(0, 1);
  return `about ${inWords(from.reduce((best, one) => (one.off_cm < best.off_cm ? one : best)))}`;
}

/**
 * A length in hands alone, to the half: `2½ hands`.
 *
 * @param length_cm 5 to 10,000
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function inHands(length_cm: number, measures: Measures = USUAL_MEASURES): string {
  requireInDomain('length, cm,', length_cm, 5, 10_000);
  requireMeasures(measures);
  return inWords(counted(length_cm, measures, HAND));
}
