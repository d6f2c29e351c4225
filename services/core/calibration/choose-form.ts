/**
 * Offset, gain or curve: the simplest form that the points ask for among those that they support.
 *
 * The highest term of a form must differ from 0 at 95 %, by its uncertainty and Student's t [JCGM 100 G.3], or the
 * normal distribution where the uncertainty was known beforehand; and it must be large enough to matter.
 */
import { SandlarderError } from '../errors.js';
import { CALIBRATION_FORMS, type CalibratedQuantity, type CalibrationForm } from '../model/calibration.js';
import type { PolynomialFit } from './least-squares.js';
import { studentScore } from './student.js';
import { amount, brief } from './words.js';

/** Two-sided 95 %. */
const TAIL = 0.025;

export interface ChosenForm {
  readonly form: CalibrationForm;
  /** One sentence. */
  readonly reason: string;
}

export interface FormChoice {
  readonly quantity: CalibratedQuantity;
  readonly asked?: CalibrationForm | undefined;
  /** What the points lack for a form; undefined where they support it. */
  readonly lack: (form: CalibrationForm) => string | undefined;
  readonly fitted: (form: CalibrationForm) => PolynomialFit;
  /** Half the span of the indicated values: how far from the middle a term works. */
  readonly reach: number;
  readonly leastEffect: number;
}

const HEAD: Readonly<Record<CalibrationForm, string>> = {
  offset: 'Offset only',
  linear: 'Offset and gain',
  quadratic: 'Offset, gain and curve',
};

const TERM_NAME: Readonly<Record<CalibrationForm, string>> = {
  offset: 'offset',
  linear: 'gain',
  quadratic: 'curve',
};

interface TermTest {
  readonly counts: boolean;
  readonly clause: string;
}

/**
 * Chooses the form, or takes the one asked for.
 *
 * @throws SandlarderError TOO_FEW_SAMPLES where the form asked for, or even an offset, is not supported, with what is
 * missing
 */
export function chooseForm(choice: FormChoice): ChosenForm {
  const { asked, lack } = choice;
  const missing = lack(asked ?? 'offset');
  if (missing !== undefined) throw new SandlarderError('TOO_FEW_SAMPLES', `calibration: ${missing}`);
  return asked === undefined ? simplestThatCounts(choice) : askedFor(asked, choice);
}

function askedFor(form: CalibrationForm, choice: FormChoice): ChosenForm {
  if (form === 'offset') return { form, reason: `${HEAD[form]}, as asked.` };
  return { form, reason: `${HEAD[form]}, as asked: ${testOf(form, choice).clause}.` };
}

function simplestThatCounts(choice: FormChoice): ChosenForm {
  const clauses: string[] = [];
  for (const form of CALIBRATION_FORMS.slice(1).reverse()) {
    const missing = choice.lack(form);
    const test = missing === undefined ? testOf(form, choice) : { counts: false, clause: missing };
    // What a curve lacks is of interest only where a gain could be had.
    if (test.counts) return { form, reason: `${HEAD[form]}: ${[test.clause, ...clauses].join('; ')}.` };
    if (missing === undefined || form === 'linear') clauses.unshift(test.clause);
  }
  return { form: 'offset', reason: `${HEAD.offset}: ${clauses.join('; ')}.` };
}

/** The highest term of the form against its own uncertainty, and against what matters. */
function testOf(form: CalibrationForm, { quantity, fitted, reach, leastEffect }: FormChoice): TermTest {
  const { coefficients, covariance, degree, degreesOfFreedom, birgeRatio } = fitted(form);
  const term = Math.abs(coefficients[degree] as number);
  if (!(term * reach ** degree >= leastEffect))
    return {
      counts: false,
      clause: `the ${TERM_NAME[form]} changes the correction by less than ${amount(leastEffect, quantity)}`,
    };
  const knownBeforehand = birgeRatio !== undefined ? birgeRatio <= 1 : degreesOfFreedom === 0;
  const needed = studentScore(TAIL, knownBeforehand ? undefined : degreesOfFreedom);
  const times = term / Math.sqrt(covariance[degree]?.[degree] as number);
  const counts = times > needed;
  const found = Number.isFinite(times) && times < 1e6 ? brief(times) : 'over a million';
  return {
    counts,
    clause: `the ${TERM_NAME[form]} is ${found} times its standard uncertainty, where more than ${brief(needed)} ${counts ? 'was' : 'would be'} needed (95 %)`,
  };
}
