/** Calibrations in force, as everything that reads readings asks for them. */
import {
  COVERAGE_FACTOR,
  correctionAt,
  type InForce,
  inForceAt,
  inForceOver,
  pointsCounted,
  type TemperatureEffect,
  temperatureEffect,
} from '../core/calibration/index.js';
import { CALIBRATED_QUANTITIES, type CalibratedQuantity } from '../core/model/calibration.js';
import type { Calibration } from '../core/model/calibration-record.js';
import { HOUR_ms } from '../core/model/time.js';
import type { HourCorrection, ProbeCorrections } from '../core/watch/corrections.js';
import type { Registry } from '../registry/index.js';
import type { KnownProbe } from './directory.js';

type Stretches = Readonly<Record<CalibratedQuantity, readonly InForce[]>>;

/**
 * - `outside` the value lies beyond what the probe was calibrated for
 * - `drifted` at its next calibration the probe was found further off than its tolerance
 */
export type Doubt = 'outside' | 'drifted';

export interface CorrectedValue {
  readonly value: number;
  /** Expanded, k = 2; null without a calibration. */
  readonly uncertainty: number | null;
  readonly doubt: Doubt | null;
}

const NO_EFFECT = { correction_RH: 0, standardUncertainty_RH: 0 } as const;

/** Binary arithmetic adds digits that say nothing. */
export const toMillionth = (value: number): number => Math.round(value * 1e6) / 1e6;

/** One instance for a running service; what it remembers follows what is at rest. */
export class Calibrations {
  readonly #registry: Registry;
  readonly #probes = new Map<string, Stretches>();
  /** Whether there is any calibration at all: most sites begin without. */
  #any: boolean | undefined;

  constructor(registry: Registry) {
    this.#registry = registry;
  }

  /** Reads everything anew from what is at rest. */
  forget(): void {
    this.#probes.clear();
    this.#any = undefined;
  }

  /** @param writtenAt wall clock, ms */
  add(calibration: Calibration, writtenAt: number): void {
    this.#registry.calibrations.add(calibration, writtenAt);
    this.forget();
  }

  stretches(site: string, probe: string): Stretches {
    const key = `${site}/${probe}`;
    const known = this.#probes.get(key);
    if (known) return known;
    this.#any ??= this.#registry.calibrations.count() > 0;
    const records = this.#any ? this.#registry.calibrations.ofProbe(site, probe) : [];
    const of = (quantity: CalibratedQuantity) =>
      inForceOver(records.filter((record) => record.quantity === quantity));
    const stretches = { temperature: of('temperature'), humidity: of('humidity') };
    this.#probes.set(key, stretches);
    return stretches;
  }

  inForce(site: string, probe: string, quantity: CalibratedQuantity, time: number): Calibration | null {
    return inForceAt(this.stretches(site, probe)[quantity], time)?.calibration ?? null;
  }

  /**
   * A value as it would have been shown had the probe been right.
   *
   * @param temperature_C corrected, of the same time: a humidity sensor has a temperature coefficient of its own
   */
  correct(
    { site, probe: { id } }: KnownProbe,
    quantity: CalibratedQuantity,
    at: number,
    raw: number,
    temperature_C?: number,
  ): CorrectedValue {
    const stretch = inForceAt(this.stretches(site, id)[quantity], at);
    const drifted = stretch?.drifted ? 'drifted' : null;
    if (!stretch?.calibration) return { value: raw, uncertainty: null, doubt: drifted };
    const { corrected, standardUncertainty, outsideRange } = correctionAt(stretch.calibration.fit, raw);
    const effect =
      quantity === 'humidity' && temperature_C !== undefined
        ? effectAt(stretch.calibration, temperature_C)
        : NO_EFFECT;
    return {
      value: corrected + effect.correction_RH,
      uncertainty: COVERAGE_FACTOR * Math.hypot(standardUncertainty, effect.standardUncertainty_RH),
      doubt: outsideRange ? 'outside' : drifted,
    };
  }

  /** By probe: the calibrations for an hour, as the watch takes them; a probe that never had one is left out. */
  forHour(probes: readonly KnownProbe[], hour: number): ReadonlyMap<string, ProbeCorrections> {
    return new Map(
      probes.flatMap(({ site, probe: { id } }) => {
        const corrections = correctionsFor(this.stretches(site, id), hour);
        return corrections ? [[id, corrections] as const] : [];
      }),
    );
  }
}

function correctionsFor(stretches: Stretches, hour: number): ProbeCorrections | undefined {
  const all = CALIBRATED_QUANTITIES.flatMap((quantity) => {
    const one = hourCorrection(stretches[quantity], hour);
    return one ? [[quantity, one] as const] : [];
  });
  return all.length > 0 ? Object.fromEntries(all) : undefined;
}

/** Of a humidity whose own temperature coefficient was measured: what it adds is a straight line in temperature. */
function inUseOf(calibration: Calibration): Pick<HourCorrection, 'inUse'> {
  if (calibration.quantity !== 'humidity') return {};
  const points = pointsCounted(calibration);
  const [at0, at1] = [temperatureEffect(points, 0), temperatureEffect(points, 1)];
  if (at0.basis !== 'measured') return {};
  const [at0_RH, at1_RH] = [at0.correction_RH, at1.correction_RH];
  return { inUse: { at0_RH, perDegree_RH: at1_RH - at0_RH } };
}

/** Temperatures at which a humidity sensor's own coefficient is reckoned with, °C; beyond them it stays what it is there. */
const USE_C = [0, 50] as const;

/** Steps of temperature in which the effect is worked out and remembered, °C: it changes by some hundredths of %RH in one. */
const EFFECT_STEP_C = 0.1;

/** By calibration and step: of every season some hundreds. */
const effects = new Map<string, TemperatureEffect>();
const MOST_EFFECTS = 20_000;

function effectAt(calibration: Calibration, temperature_C: number): TemperatureEffect {
  const step = Math.round(Math.min(USE_C[1], Math.max(USE_C[0], temperature_C)) / EFFECT_STEP_C);
  const key = `${calibration.id} ${step}`;
  const known = effects.get(key);
  if (known) return known;
  if (effects.size >= MOST_EFFECTS) effects.clear();
  const effect = temperatureEffect(pointsCounted(calibration), step * EFFECT_STEP_C);
  effects.set(key, effect);
  return effect;
}

/** A calibration counts from the first hour that begins at or after it. */
function hourCorrection(stretches: readonly InForce[], hour: number): HourCorrection | undefined {
  if (stretches.length <= 1) return undefined;
  const now = inForceAt(stretches, hour)?.calibration ?? null;
  const before = inForceAt(stretches, hour - HOUR_ms)?.calibration ?? null;
  if (!now && !before) return undefined;
  return {
    ...{ fit: now?.fit ?? null, madeAt: now?.doneAt ?? null },
    ...(now && inUseOf(now)),
    ...(now?.id !== before?.id && { before: before && { fit: before.fit, ...inUseOf(before) } }),
  };
}
