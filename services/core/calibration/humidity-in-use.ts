/**
 * A humidity calibration made in a warm room, used in cool sand: what the probe's own temperature coefficient adds.
 *
 * Units: %RH and °C. Digital sensors with a polymer film correct their film's coefficient, and what is left is given
 * as about ±0.05 %RH for each °C (from memory; sheets of bare films seen say from below 0.02 at 33 %RH to some 0.3 at
 * high humidity).
 */
import { requireInDomain, SandlarderError } from '../errors.js';

/** One point of a humidity calibration; every calibration point has at least this. */
export interface HumidityInBath {
  /** %RH. */
  readonly indicated: number;
  /** %RH. */
  readonly reference: number;
  /** %RH, k = 1. */
  readonly referenceUncertainty: number;
  readonly temperature_C?: number | undefined;
}

export interface TemperatureEffect {
  /** %RH, to be added to the corrected value. */
  readonly correction_RH: number;
  /** %RH, k = 1. */
  readonly standardUncertainty_RH: number;
  readonly basis: 'measured' | 'assumed';
  /** %RH for each °C that the probe reads too high as it gets warmer; of a measured basis only. */
  readonly coefficient_RH_C?: number;
  readonly sentence: string;
}

/** %RH for each °C, k = 1: what is taken where nothing was measured. Judgement, from the figure above. */
export const ASSUMED_COEFFICIENT_RH_C = 0.05;

/** °C between the coldest and the warmest point before a coefficient is looked for. */
const APART_LEAST_C = 5;

/** %RH between points before they are allowed to tell an error that goes with humidity. */
const HUMIDITY_APART_LEAST = 10;

/** %RH, k = 1: repeatability and hysteresis of a cheap probe, for each point. Judgement. */
const PROBE_RH = 0.3;

/** °C: where a bench stands when nobody wrote it down. */
const ROOM_C = { low: 15, high: 30 };

const POINTS_MOST = 200;

/**
 * What has to be added to a corrected humidity, and how uncertain that is, because the sand is not as warm as the
 * bath was.
 *
 * With points at least 5 °C apart the errors (indicated less reference) are fitted by weighted least squares to
 * temperature and, where the points are 10 %RH apart, to humidity, so that the one is not taken for the other. The
 * coefficient counts as measured where its standard uncertainty is at most the assumed 0.05 %RH/°C, or where it is
 * more than twice its uncertainty. Beyond the temperatures of the points the assumed coefficient comes on top.
 * Points without a temperature count as made somewhere from 15 to 30 °C.
 *
 * @param points 1 to 200
 * @param temperatureOfUse_C 0 to 50 °C
 * @throws SandlarderError TOO_FEW_SAMPLES for no point; LIMIT_EXCEEDED above 200; OUT_OF_DOMAIN
 */
export function temperatureEffect(
  points: readonly HumidityInBath[],
  temperatureOfUse_C: number,
): TemperatureEffect {
  requireInDomain('temperature of use, °C,', temperatureOfUse_C, 0, 50);
  checkPoints(points);
  const placed = points.filter(hasTemperature);
  const measured = placed.length === points.length ? measuredEffect(placed, temperatureOfUse_C) : undefined;
  return measured ?? assumedEffect(points, temperatureOfUse_C);
}

type Placed = HumidityInBath & { readonly temperature_C: number };

const hasTemperature = (point: HumidityInBath): point is Placed => point.temperature_C !== undefined;

function checkPoints(points: readonly HumidityInBath[]): void {
  if (!(points.length >= 1))
    throw new SandlarderError('TOO_FEW_SAMPLES', 'humidity calibration: expected at least 1 point, got 0');
  if (!(points.length <= POINTS_MOST))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `humidity calibration: expected at most ${POINTS_MOST} points, got ${points.length}`,
    );
  for (const point of points) {
    requireInDomain('indicated humidity, %RH,', point.indicated, -10, 120);
    requireInDomain('reference humidity, %RH,', point.reference, 0, 100);
    requireInDomain('standard uncertainty of the reference, %RH,', point.referenceUncertainty, 0, 20);
    if (hasTemperature(point)) requireInDomain('temperature of the bath, °C,', point.temperature_C, 0, 50);
  }
}

function assumedEffect(points: readonly HumidityInBath[], use_C: number): TemperatureEffect {
  const ends_C = points.flatMap(({ temperature_C }) =>
    temperature_C === undefined ? [ROOM_C.low, ROOM_C.high] : [temperature_C],
  );
  const distance_C = Math.max(...ends_C.map((end_C) => Math.abs(use_C - end_C)));
  const standardUncertainty_RH = ASSUMED_COEFFICIENT_RH_C * distance_C;
  const unknown = points.every(hasTemperature) ? '' : ' The bath’s temperature was not written down.';
  return {
    correction_RH: 0,
    standardUncertainty_RH,
    basis: 'assumed',
    sentence:
      `Calibrated up to ${distance_C.toFixed(1)} °C away from the ${use_C.toFixed(1)} °C of use: ` +
      `${standardUncertainty_RH.toFixed(2)} %RH is added to the uncertainty, ` +
      `${ASSUMED_COEFFICIENT_RH_C} %RH for each °C, since this probe’s own coefficient is not known.${unknown}`,
  };
}

interface Coefficient {
  readonly value: number;
  readonly standardUncertainty: number;
  /** °C: weighted mean of the points, where the calibration as a whole holds. */
  readonly centre_C: number;
}

function measuredEffect(points: readonly Placed[], use_C: number): TemperatureEffect | undefined {
  const temperatures_C = points.map(({ temperature_C }) => temperature_C);
  const low_C = Math.min(...temperatures_C);
  const high_C = Math.max(...temperatures_C);
  if (!(high_C - low_C >= APART_LEAST_C)) return undefined;
  const coefficient = fitCoefficient(points);
  if (coefficient === undefined || !isWorthUsing(coefficient)) return undefined;
  const { value, standardUncertainty, centre_C } = coefficient;
  const from_C = use_C - centre_C;
  const beyond_C = Math.max(0, low_C - use_C, use_C - high_C);
  // Not -0 where the use is at the centre.
  const correction_RH = 0 - value * from_C;
  const uncertainty_RH = Math.hypot(standardUncertainty * from_C, ASSUMED_COEFFICIENT_RH_C * beyond_C);
  return {
    correction_RH,
    standardUncertainty_RH: uncertainty_RH,
    basis: 'measured',
    coefficient_RH_C: value,
    sentence:
      `Points at ${low_C.toFixed(1)} to ${high_C.toFixed(1)} °C show that this probe reads ` +
      `${Math.abs(value).toFixed(3)} %RH ${value < 0 ? 'lower' : 'higher'} for each °C warmer: at ` +
      `${use_C.toFixed(1)} °C ${correction_RH.toFixed(2)} %RH is added, uncertain by ` +
      `${uncertainty_RH.toFixed(2)} %RH (k = 1).`,
  };
}

const isWorthUsing = ({ value, standardUncertainty }: Coefficient): boolean =>
  standardUncertainty <= ASSUMED_COEFFICIENT_RH_C || Math.abs(value) > 2 * standardUncertainty;

/** Of the temperature's sum of squares, what must be left once what goes with humidity is taken out. */
const OWN_SHARE_LEAST = 0.05;

/**
 * The error's slope with temperature, its slope with humidity taken out where the points can tell the two apart;
 * absent where they cannot. Where the residuals are larger than the uncertainties explain, the uncertainty grows by
 * the ratio; it never shrinks.
 */
function fitCoefficient(points: readonly Placed[]): Coefficient | undefined {
  const weights = points.map(({ referenceUncertainty }) => 1 / (referenceUncertainty ** 2 + PROBE_RH ** 2));
  const total = sum(weights);
  const centred = (values: readonly number[]): { mean: number; off: readonly number[] } => {
    const mean = sum(values.map((value, at) => value * (weights[at] as number))) / total;
    return { mean, off: values.map((value) => value - mean) };
  };
  const product = (one: readonly number[], other: readonly number[]): number =>
    sum(one.map((value, at) => value * (other[at] as number) * (weights[at] as number)));
  const humidities = points.map(({ reference }) => reference);
  const { mean: centre_C, off: warmth } = centred(points.map(({ temperature_C }) => temperature_C));
  const { off: errors } = centred(points.map(({ indicated, reference }) => indicated - reference));
  const damp = centred(humidities).off;
  const usesHumidity = Math.max(...humidities) - Math.min(...humidities) >= HUMIDITY_APART_LEAST;
  const without = (values: readonly number[]): readonly number[] => {
    if (!usesHumidity) return values;
    const slope = product(values, damp) / product(damp, damp);
    return values.map((value, at) => value - slope * (damp[at] as number));
  };
  const own = without(warmth);
  const square = product(own, own);
  if (!(square > OWN_SHARE_LEAST * product(warmth, warmth))) return undefined;
  const left = without(errors);
  const value = product(left, own) / square;
  const residuals = left.map((error, at) => error - value * (own[at] as number));
  const freedom = points.length - (usesHumidity ? 3 : 2);
  const excess = freedom > 0 ? Math.max(1, product(residuals, residuals) / freedom) : 1;
  return { value, standardUncertainty: Math.sqrt(excess / square), centre_C };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
