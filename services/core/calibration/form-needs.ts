/**
 * What points must offer before a form of the correction may be fitted to them.
 *
 * Two points at one temperature give a slope to any arithmetic, and it means nothing: a hundredth of a degree of
 * scatter over a tenth of a degree turns into a whole degree ten degrees away.
 */
import { max, min } from 'simple-statistics';
import { requireInDomain } from '../errors.js';
import type {
  CalibratedQuantity,
  CalibrationForm,
  CalibrationPoint,
  Weighting,
} from '../model/calibration.js';
import { amount, PLURAL, TERM } from './words.js';

/** In the unit of the quantity, °C or %RH, where it is no count. */
export interface FormNeeds {
  /** References further apart than this are different levels. */
  readonly levelApart: number;
  /** Span of the references that a gain or curve needs. */
  readonly gainSpan: number;
  /** Share of the references' span that the probe must have followed. */
  readonly followed: number;
  /** Levels and points that a curve needs. */
  readonly curveLevels: number;
  readonly curvePoints: number;
  /** A term that changes the correction by less than this, anywhere within the points, is none. */
  readonly leastEffect: number;
}

/**
 * All judgement. Spans: 10 °C is the range that a bed goes through in a season, 20 %RH the step between neighbouring
 * salts. Effect: under a tenth of the finest step in which cheap probes tell their values (0.06 °C, 0.5 %RH).
 */
export const FORM_NEEDS: Readonly<Record<CalibratedQuantity, FormNeeds>> = {
  temperature: {
    levelApart: 1,
    gainSpan: 10,
    followed: 0.5,
    curveLevels: 4,
    curvePoints: 5,
    leastEffect: 0.005,
  },
  humidity: { levelApart: 5, gainSpan: 20, followed: 0.5, curveLevels: 4, curvePoints: 5, leastEffect: 0.05 },
};

/** Coefficients of a form. */
export const TERMS: Readonly<Record<CalibrationForm, 1 | 2 | 3>> = { offset: 1, linear: 2, quadratic: 3 };

export const spanOf = (values: readonly number[]): number => max([...values]) - min([...values]);

/**
 * Levels among values: from the lowest up, a new one begins where a value is more than `apart` above the start of the
 * last.
 */
export function levelsOf(values: readonly number[], apart: number): number {
  let levels = 0;
  let start = Number.NEGATIVE_INFINITY;
  for (const value of [...values].sort((one, other) => one - other))
    if (value - start > apart) {
      levels += 1;
      start = value;
    }
  return levels;
}

/**
 * What the points lack for a form, as a clause that says what is needed and what there is; undefined where they
 * support it.
 *
 * @param points checked, at least one
 * @throws SandlarderError OUT_OF_DOMAIN for needs that are not positive
 */
export function lackFor(
  form: CalibrationForm,
  points: readonly CalibrationPoint[],
  quantity: CalibratedQuantity,
  weighting: Weighting,
  needs: FormNeeds,
): string | undefined {
  for (const [name, value] of Object.entries(needs))
    requireInDomain(`need ${name}`, value, Number.MIN_VALUE, Number.MAX_VALUE);
  const ofSpan = form === 'offset' ? undefined : lackOfSpan(form, points, quantity, needs);
  const ofLevels = form === 'quadratic' ? lackOfLevels(points, quantity, needs) : undefined;
  return ofSpan ?? ofLevels ?? (weighting === 'ordinary' ? lackOfScatter(form, points.length) : undefined);
}

function lackOfSpan(
  form: CalibrationForm,
  points: readonly CalibrationPoint[],
  quantity: CalibratedQuantity,
  { gainSpan, followed }: FormNeeds,
): string | undefined {
  const span = spanOf(points.map(({ reference }) => reference));
  const shown = spanOf(points.map(({ indicated }) => indicated));
  const needed = `${TERM[form]} needs points at two ${PLURAL[quantity]} at least ${amount(gainSpan, quantity)} apart`;
  if (points.length === 1) return `${needed}; there is one point`;
  // Decimal numbers are not exact in binary: 30.1 less 20.1 is a last digit above 10, others a last digit below.
  if (!(span >= gainSpan * (1 - 1e-9))) return `${needed}; these all lie within ${amount(span, quantity)}`;
  if (!(shown >= followed * span))
    return `${TERM[form]} needs a probe that follows; over ${amount(span, quantity)} it changed by ${amount(shown, quantity)}`;
  return undefined;
}

function lackOfLevels(
  points: readonly CalibrationPoint[],
  quantity: CalibratedQuantity,
  { levelApart, curveLevels, curvePoints }: FormNeeds,
): string | undefined {
  const levels = Math.min(
    levelsOf(
      points.map(({ reference }) => reference),
      levelApart,
    ),
    levelsOf(
      points.map(({ indicated }) => indicated),
      levelApart / 2,
    ),
  );
  if (levels >= curveLevels && points.length >= curvePoints) return undefined;
  const counted = points.length === 1 ? 'there is 1 point' : `these are ${points.length} points`;
  return `a curve needs at least ${curvePoints} points at ${curveLevels} ${PLURAL[quantity]} more than ${amount(levelApart, quantity)} from each other; ${counted} at ${levels}`;
}

function lackOfScatter(form: CalibrationForm, count: number): string | undefined {
  const least = TERMS[form] + 1;
  if (count >= least) return undefined;
  return `${TERM[form]} of points that count alike needs at least ${least} of them, to see their scatter; there ${count === 1 ? 'is 1' : `are ${count}`}`;
}
