/** From points and who measured them to a calibration that can be kept, or the sentence why not. */
import { SandlarderError } from '../errors.js';
import type {
  CalibratedQuantity,
  CalibrationFit,
  CalibrationPoint,
  StepSource,
} from '../model/calibration.js';
import type {
  AsFoundRecord,
  Calibration,
  ChangeRecord,
  Conditions,
  FitRequest,
  Reference,
} from '../model/calibration-record.js';
import { formatTime } from '../model/time.js';
import { correctionChange, driftBetween } from './drift.js';
import { fitCalibration } from './fit.js';
import { temperatureEffect } from './humidity-in-use.js';
import { inForceAt, inForceOver, pointsCounted, standing } from './in-force.js';

/** Step in which a probe tells its values, °C or %RH, and how that is known. */
export interface ProbeStep {
  readonly step: number;
  readonly stepFrom: StepSource;
}

export interface CalibrationRequest {
  readonly site: string;
  readonly probe: string;
  readonly quantity: CalibratedQuantity;
  /** ms. */
  readonly from: number;
  readonly doneAt: number;
  readonly by: string;
  readonly reference: Reference;
  readonly conditions: Conditions;
  readonly points: readonly CalibrationPoint[];
  readonly fit: FitRequest;
  /** Step of the probe's values as the bench knows it; counts where the fit does not say one. */
  readonly step?: ProbeStep | undefined;
  readonly supersedes?: string | undefined;
  readonly bench?: string | undefined;
}

/** Within what is asked of a humidity in use. */
const ANY_USE_C = 20;

export interface CalibrationContext {
  readonly id: string;
  /** All records of this probe and quantity. */
  readonly records: readonly Calibration[];
  /** Since when the probe is known to exist, ms. */
  readonly existsSince: number;
  /** °C or %RH. */
  readonly tolerance: number;
}

/**
 * Fits the points and puts the record together.
 *
 * @throws SandlarderError CONFLICT where it contradicts what is kept; TOO_FEW_SAMPLES, OUT_OF_DOMAIN where the points
 * do not support what is asked
 */
export function calibrationOf(request: CalibrationRequest, context: CalibrationContext): Calibration {
  const { id, records, existsSince, tolerance } = context;
  const { site, probe, quantity, from, doneAt, by, reference, conditions, points } = request;
  if (!(from >= existsSince))
    throw new SandlarderError(
      'CONFLICT',
      `from: expected a time since which probe ${probe} is known, ${formatTime(existsSince)}, got ${formatTime(from)}; a calibration that was done before holds from a later "from" on`,
    );
  const supersedes = supersededBy(request, records);
  const others = standing(records).filter((record) => record.id !== supersedes);
  refuseSameInstant(request, others);
  const fit = fitOf(request);
  // Worked out anew with every reading: what it refuses must not be kept.
  if (quantity === 'humidity') temperatureEffect(points, ANY_USE_C);
  const before = inForceAt(inForceOver(others), from)?.calibration ?? null;
  const change = before && changeOf(before.fit, fit);
  return {
    ...{ id, site, probe, quantity, from, doneAt, by, reference, conditions, points, fit },
    asFound: asFoundOf(pointsCounted({ points, fit }), before?.fit, quantity, tolerance),
    ...(change && { change }),
    before: before?.id ?? null,
    supersedes: supersedes ?? null,
    bench: request.bench ?? null,
  };
}

function fitOf({ quantity, points, fit, step }: CalibrationRequest): CalibrationFit {
  const { form, weighting, leaveOut } = fit;
  const resolution = fit.resolution ?? step?.step;
  const resolutionFrom = fit.resolution === undefined ? step?.stepFrom : 'given';
  return fitCalibration(points, {
    quantity,
    ...(form && { form }),
    ...(weighting && { weighting }),
    ...(resolution !== undefined && { resolution }),
    ...(resolutionFrom && { resolutionFrom }),
    ...(leaveOut && { leaveOut }),
  });
}

function supersededBy(
  { probe, quantity, supersedes }: CalibrationRequest,
  records: readonly Calibration[],
): string | undefined {
  if (supersedes === undefined) return undefined;
  if (standing(records).some(({ id }) => id === supersedes)) return supersedes;
  const replaced = records.some(({ id }) => id === supersedes);
  throw new SandlarderError(
    'CONFLICT',
    `supersedes: expected a calibration of the ${quantity} of probe ${probe} that stands, got ${JSON.stringify(supersedes)}, which ${replaced ? 'another has taken the place of' : 'is none'}`,
  );
}

function refuseSameInstant(
  { probe, quantity, from }: CalibrationRequest,
  others: readonly Calibration[],
): void {
  const same = others.find((other) => other.from === from);
  if (same)
    throw new SandlarderError(
      'CONFLICT',
      `from: expected a time of its own, got ${formatTime(from)}, from which calibration ${same.id} of the ${quantity} of probe ${probe} holds; name it in "supersedes" to take its place`,
    );
}

function asFoundOf(
  points: readonly CalibrationPoint[],
  before: CalibrationFit | undefined,
  quantity: CalibratedQuantity,
  tolerance: number,
): AsFoundRecord {
  const { largest, exceeds, certain } = driftBetween(points, before, quantity, tolerance);
  const { error, standardUncertainty, index } = largest;
  const indicated = points[index]?.indicated ?? Number.NaN;
  return { largest: error, standardUncertainty, indicated, tolerance, exceeds, certain };
}

/** Nothing where the two have no range in common. */
function changeOf(before: CalibrationFit, after: CalibrationFit): ChangeRecord | undefined {
  if (before.range[1] < after.range[0] || after.range[1] < before.range[0]) return undefined;
  const { change, standardUncertainty, indicated } = correctionChange(before, after);
  return { change, standardUncertainty, indicated };
}
