/**
 * Calibrations in the watch: quality judges what a probe sent, everything after it what the probe would have shown had
 * it been right.
 */
import { polynomialAt } from '../calibration/index.js';
import type { CalibratedQuantity, CalibrationFit } from '../model/calibration.js';
import type { UsableHour } from './quality/index.js';
import type { HourSummary, Sample } from './watch.js';

/** The calibration of one quantity of a probe for one hour. */
export interface HourCorrection {
  /** In force; null where none is. */
  readonly fit: CalibrationFit | null;
  /** When it was made, ms; null where none is in force. */
  readonly madeAt: number | null;
  /** Of a humidity whose own temperature coefficient was measured: what is added at 0 °C, and more for each °C, %RH. */
  readonly inUse?: { readonly at0_RH: number; readonly perDegree_RH: number };
  /** What was in force in the hour before, where that was another; null where none was. */
  readonly before?: Pick<HourCorrection, 'fit' | 'inUse'> | null;
}

export type ProbeCorrections = Readonly<Partial<Record<CalibratedQuantity, HourCorrection>>>;

/** By how much corrected values jump because another calibration has come into force, °C and %RH. */
export type Shift = Readonly<Partial<Record<CalibratedQuantity, number>>>;

export const correct = (fit: CalibrationFit | null | undefined, value: number): number =>
  fit ? value + polynomialAt(fit, value) : value;

/** What is added to a humidity because the sand is not as warm as the bath was, %RH. */
const addedInUse = ({ inUse }: Pick<HourCorrection, 'inUse'>, temperature_C: number | undefined): number =>
  inUse && temperature_C !== undefined ? inUse.at0_RH + inUse.perDegree_RH * temperature_C : 0;

function correctSummary(
  summary: HourSummary,
  correction: HourCorrection | undefined,
  temperature_C?: number,
): HourSummary {
  if (!correction?.fit) return summary;
  const added = addedInUse(correction, temperature_C);
  const corrected = (value: number): number => correct(correction.fit, value) + added;
  const { count, mean, min, max } = summary;
  const [one, other] = [corrected(min), corrected(max)];
  return { count, mean: corrected(mean), min: Math.min(one, other), max: Math.max(one, other) };
}

/** The usable part of an hour, corrected. */
export function correctHour(hour: UsableHour, corrections: ProbeCorrections | undefined): UsableHour {
  if (!corrections) return hour;
  const { temperature, humidity } = hour;
  const warmth = temperature && correctSummary(temperature, corrections.temperature);
  return {
    ...hour,
    ...(warmth && { temperature: warmth }),
    ...(humidity && { humidity: correctSummary(humidity, corrections.humidity, warmth?.mean) }),
  };
}

export function correctSamples(
  samples: readonly Sample[],
  corrections: ProbeCorrections | undefined,
): readonly Sample[] {
  if (!corrections?.temperature?.fit && !corrections?.humidity?.fit) return samples;
  const { temperature: ofTemperature, humidity: ofHumidity } = corrections;
  return samples.map(({ at, temperature, humidity }) => {
    const warmth = temperature === undefined ? undefined : correct(ofTemperature?.fit, temperature);
    const added = ofHumidity ? addedInUse(ofHumidity, warmth) : 0;
    return {
      at,
      ...(warmth !== undefined && { temperature: warmth }),
      ...(humidity !== undefined && { humidity: correct(ofHumidity?.fit, humidity) + added }),
    };
  });
}

/** @param raw of the hour, before correction: where it measured nothing, the middle of what was calibrated counts */
export function shiftOf(raw: UsableHour, corrections: ProbeCorrections | undefined): Shift {
  const warmth = raw.temperature && correct(corrections?.temperature?.fit, raw.temperature.mean);
  const of = (quantity: CalibratedQuantity): number | undefined => {
    const correction = corrections?.[quantity];
    if (correction?.before === undefined) return undefined;
    const { fit, before } = correction;
    const [low, high] = (fit ?? before?.fit)?.range ?? [0, 0];
    const value = raw[quantity]?.mean ?? (low + high) / 2;
    const added = addedInUse(correction, warmth) - addedInUse(before ?? {}, warmth);
    return correct(fit, value) - correct(before?.fit, value) + (quantity === 'humidity' ? added : 0);
  };
  const [temperature, humidity] = [of('temperature'), of('humidity')];
  return { ...(temperature !== undefined && { temperature }), ...(humidity !== undefined && { humidity }) };
}
