/**
 * The correction of a probe from its calibration points: form of JCGM 100:2008 H.3, with what it leaves open.
 */
import { max, mean, min } from 'simple-statistics';
import { requireInDomain, SandlarderError } from '../errors.js';
import type {
  CalibratedQuantity,
  CalibrationFit,
  CalibrationForm,
  CalibrationPoint,
  Weighting,
} from '../model/calibration.js';
import { chooseForm } from './choose-form.js';
import { FORM_NEEDS, type FormNeeds, lackFor, spanOf, TERMS } from './form-needs.js';
import { type Degree, fitPolynomial, type PolynomialFit } from './least-squares.js';
import { judgedResiduals, outliersOf } from './outliers.js';
import { correctionOf, requirePoints } from './point.js';
import { polynomialAt } from './polynomial.js';
import { commonUncertaintyOf, pointUncertainties, pooledScatter, usualWeighting } from './weighting.js';

export interface PointLeftOut {
  /** Of the points given, from 0. */
  readonly index: number;
  /** Why, in words that are kept with the fit. */
  readonly reason: string;
}

/** All but the quantity has a usual value. */
export interface FitOptions {
  readonly quantity: CalibratedQuantity;
  /** A form asked for; else the simplest that the points ask for. */
  readonly form?: CalibrationForm;
  /** Else ordinary for five points or more beside instruments, weighted for fewer and for fixed points. */
  readonly weighting?: Weighting;
  /** Indicated value that the coefficients refer to; else the mean of the points, rounded to whole units. */
  readonly centre?: number;
  /** Standard uncertainty that all references share; see `commonUncertaintyOf` for the usual value. */
  readonly commonUncertainty?: number;
  readonly leaveOut?: readonly PointLeftOut[];
  /** Step in which the probe tells its values. */
  readonly resolution?: number;
  /** How the step is known; `given` where absent. */
  readonly resolutionFrom?: CalibrationFit['resolutionFrom'];
  /** Standard deviation of a single reading; else what the points noted. */
  readonly repeatability?: number;
  readonly needs?: Partial<FormNeeds>;
}

/**
 * Fits the correction reference - indicated as a polynomial of the indicated value.
 *
 * @param points in °C or %RH by `options.quantity`
 * @throws SandlarderError TOO_FEW_SAMPLES where the points do not support the form, with what is missing;
 * OUT_OF_DOMAIN for points that are not whole and options outside their range
 */
export function fitCalibration(points: readonly CalibrationPoint[], options: FitOptions): CalibrationFit {
  requirePoints(points, options.quantity);
  const leftOut = requireLeftOut(options.leaveOut ?? [], points.length);
  const indices = [...points.keys()].filter((index) => !leftOut.some((left) => left.index === index));
  const used = indices.map((index) => points[index] as CalibrationPoint);
  if (used.length === 0)
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      'calibration: expected a point that is not left out, got none',
    );
  const weighting = options.weighting ?? usualWeighting(used);
  const uncertainties = weighting === 'weighted' ? pointUncertainties(used) : undefined;
  const needs = { ...FORM_NEEDS[options.quantity], ...options.needs };
  const x = used.map(({ indicated }) => indicated);
  const centre = options.centre ?? Math.round(mean(x));
  const fitForm = fitterOf(used, uncertainties, centre);
  const { form, reason } = chooseForm({
    quantity: options.quantity,
    asked: options.form,
    lack: (of) => lackFor(of, used, options.quantity, weighting, needs),
    fitted: fitForm,
    reach: spanOf(x) / 2,
    leastEffect: needs.leastEffect,
  });
  const fit = fitForm(form);
  const residuals = judgedResiduals(fit, indices, uncertainties);
  return {
    quantity: options.quantity,
    form,
    reason,
    centre,
    coefficients: fit.coefficients,
    covariance: fit.covariance,
    weighting,
    degreesOfFreedom: fit.degreesOfFreedom,
    ...scatterOf(fit),
    commonUncertainty: commonUncertaintyOf(used, weighting, options.commonUncertainty),
    ...probeOf(used, options),
    range: [min(x), max(x)],
    residuals,
    outliers: outliersOf(fit, residuals, needs.leastEffect),
    leftOut: leftOut.map((left) => ({ ...left, residual: residualOf(points[left.index], fit) })),
  };
}

/** Each form is fitted at most once. */
function fitterOf(
  points: readonly CalibrationPoint[],
  uncertainties: readonly number[] | undefined,
  centre: number,
): (form: CalibrationForm) => PolynomialFit {
  const done = new Map<CalibrationForm, PolynomialFit>();
  const x = points.map(({ indicated }) => indicated);
  const y = points.map(correctionOf);
  const observations = uncertainties === undefined ? { x, y } : { x, y, uncertainties };
  return (form) => {
    const fit = done.get(form) ?? fitPolynomial(observations, (TERMS[form] - 1) as Degree, centre);
    done.set(form, fit);
    return fit;
  };
}

const scatterOf = ({
  residualDeviation,
  birgeRatio,
}: PolynomialFit): Pick<CalibrationFit, 'residualDeviation' | 'birgeRatio'> => ({
  ...(residualDeviation === undefined ? {} : { residualDeviation }),
  ...(birgeRatio === undefined ? {} : { birgeRatio }),
});

function probeOf(
  points: readonly CalibrationPoint[],
  options: FitOptions,
): Pick<CalibrationFit, 'resolution' | 'resolutionFrom' | 'repeatability'> {
  const { resolution, resolutionFrom = 'given', repeatability = pooledScatter(points) } = options;
  if (resolution !== undefined) requireInDomain('resolution', resolution, 0, Number.MAX_VALUE);
  if (repeatability !== undefined) requireInDomain('repeatability', repeatability, 0, Number.MAX_VALUE);
  return {
    ...(resolution === undefined ? {} : { resolution, resolutionFrom }),
    ...(repeatability === undefined ? {} : { repeatability }),
  };
}

function requireLeftOut(leaveOut: readonly PointLeftOut[], count: number): PointLeftOut[] {
  const seen = new Set<number>();
  return leaveOut.map(({ index, reason }) => {
    if (!(Number.isInteger(index) && index >= 0 && index < count) || seen.has(index))
      throw new SandlarderError(
        'OUT_OF_DOMAIN',
        `point left out: expected each index once, from 0 to ${count - 1}, got ${index}`,
      );
    seen.add(index);
    const text = reason.trim();
    if (!(text.length >= 1 && text.length <= 500))
      throw new SandlarderError(
        'OUT_OF_DOMAIN',
        `point ${index} left out: expected a reason of 1 to 500 characters, got ${text.length}`,
      );
    return { index, reason: text };
  });
}

const residualOf = (point: CalibrationPoint | undefined, fit: PolynomialFit): number =>
  point === undefined ? Number.NaN : correctionOf(point) - polynomialAt(fit, point.indicated);
