/**
 * Reading quality: what one probe sent, hour by hour, before anything else in the watch looks at it.
 *
 * A value is flagged, never changed. Only this probe's own values and times are looked at, and whether others of its
 * bed spoke: a slow drift against the neighbours is told by the expected temperature, not here.
 */
import { requireInDomain, SandlarderError } from '../../errors.js';
import { EARLIEST_TIME_ms, HOUR_ms, hourOf, LATEST_TIME_ms } from '../../model/time.js';
import type { QualityFlag } from '../flag.js';
import type { ProbeHour, Sample } from '../watch.js';
import { isClockWrong } from './clock.js';
import { gatherCreep, humidityUncertainty_RH } from './creep.js';
import { type FaultVerdict, judgeFaults } from './faults.js';
import { findingsOf } from './findings.js';
import { type Gathered, isPossible, judgeValue, newGathered, type QualityStep } from './judge-value.js';
import { LIMITS, QUALITY } from './limits.js';
import { remembered } from './rounding.js';
import { watchFullness } from './saturation.js';
import { closeScatter } from './scatter.js';
import { isHumidityCode, isTemperatureCode } from './sensor-codes.js';
import type { QualityState } from './state.js';

/** The usable part of an hour, with what else must be known to use it. */
export interface UsableHour extends ProbeHour {
  /** Half width within which the mean humidity lies, %RH: accuracy and creep of the sensor. Absent without humidity. */
  readonly humidityUncertainty_RH?: number;
  /** Humidity is at the end of its range, and it cannot be told yet whether water or a failing sensor brought it. */
  readonly wetOrBroken: boolean;
}

export interface QualityResult {
  readonly hour: UsableHour;
  /** One for each value that is not used, in order of time. */
  readonly flags: readonly QualityFlag[];
  /** Changes of level that were believed in this hour. */
  readonly steps: readonly QualityStep[];
  /** What stands, and what is over now (with `until`). */
  readonly faults: readonly FaultVerdict[];
}

interface Hour {
  readonly temperature: Gathered;
  readonly humidity: Gathered;
}

/**
 * Takes the next hour of a probe. The state is changed in place.
 *
 * @param hour start of the hour, ms; later than any taken before. Hours that are left out count as unknown, not as
 *   silence: give empty ones too
 * @param samples of the hour, in order of time
 * @param othersSpoke whether any other probe of the bed (or of the shade) measured in this hour
 * @throws SandlarderError OUT_OF_DOMAIN where hours or samples do not come in order; the state is as it was
 */
export function stepQuality(
  state: QualityState,
  hour: number,
  samples: readonly Sample[],
  othersSpoke: boolean,
): QualityResult {
  requireOrder(state, hour, samples);
  state.hour = hour;
  const gathered: Hour = { temperature: newGathered(), humidity: newGathered() };
  for (const sample of samples) takeSample(state, sample, gathered);
  state.silent_h = samples.length > 0 ? 0 : state.silent_h + (othersSpoke ? 1 : 0);
  closeHour(state, gathered);
  const { temperature, humidity } = gathered;
  const usable = usableHour(state, gathered);
  return {
    hour: usable,
    flags: [...temperature.flags, ...humidity.flags].sort((one, other) => one.at - other.at),
    steps: [...temperature.steps, ...humidity.steps],
    faults: judgeFaults(state, findingsOf(state, hour + HOUR_ms, gathered), hour + HOUR_ms, usable),
  };
}

function requireOrder(state: QualityState, hour: number, samples: readonly Sample[]): void {
  requireInDomain('hour of a probe, ms', hour, (state.hour ?? EARLIEST_TIME_ms - 1) + 1, LATEST_TIME_ms);
  if (hourOf(hour) !== hour)
    throw new SandlarderError('OUT_OF_DOMAIN', `hour of a probe must be a whole one, got ${hour}`);
  let least = hour;
  for (const { at } of samples) {
    requireInDomain('time of a sample, ms', at, least, hour + HOUR_ms - 1);
    least = at;
  }
}

function takeSample(state: QualityState, sample: Sample, hour: Hour): void {
  const { at, temperature, humidity } = sample;
  const alive = state.settledAt !== null;
  const wrong = isClockWrong(state.clock, at, alive ? state.lastAt : undefined);
  if (!alive || at - state.lastAt >= QUALITY.awayFor_h * HOUR_ms)
    state.settledAt = at + QUALITY.settling_h * HOUR_ms;
  state.lastAt = at;
  if (wrong) {
    if (temperature !== undefined)
      hour.temperature.flags.push({ at, quantity: 'temperature', reason: 'clock' });
    if (humidity !== undefined) hour.humidity.flags.push({ at, quantity: 'humidity', reason: 'clock' });
    return;
  }
  const unsettled = at < (state.settledAt ?? at);
  if (temperature !== undefined) {
    const code = isTemperatureCode(sample, state.temperature.recent.at(-1)?.[1]);
    judgeValue(state, 'temperature', at, temperature, { code, unsettled, dead: false }, hour.temperature);
  }
  if (humidity !== undefined) {
    const code = isHumidityCode(sample);
    if (!code && isPossible(state, 'humidity', humidity))
      watchFullness(state, at, remembered(humidity), usableTemperature(state, at));
    const dead = state.full?.dead === true;
    judgeValue(state, 'humidity', at, humidity, { code, unsettled, dead }, hour.humidity);
  }
}

/** The temperature of the same sample, where it was measured and not a code; a departure counts. */
function usableTemperature({ temperature }: QualityState, at: number): number | undefined {
  const last = temperature.measured.at(-1);
  return last?.[0] === at ? last[1] : undefined;
}

function closeHour(state: QualityState, hour: Hour): void {
  const limits = LIMITS[state.place];
  closeScatter(state.temperature, hour.temperature.offs, limits.temperature);
  const humidity = hour.humidity.values.summary();
  // A humidity at the end of its range has no scatter to learn.
  const clipped = humidity !== undefined && humidity.mean >= QUALITY.saturatedFrom_RH;
  if (!clipped) closeScatter(state.humidity, hour.humidity.offs, limits.humidity);
  if (humidity) state.creep_h = gatherCreep(state.creep_h, humidity.mean);
  const codesOnly = !humidity && hour.humidity.flags.some(({ reason }) => reason === 'sensor-code');
  const unknown = !humidity && hour.humidity.flags.length === 0;
  if (!unknown) state.humidityCodes_h = codesOnly ? state.humidityCodes_h + 1 : 0;
}

function usableHour(state: QualityState, hour: Hour): UsableHour {
  const temperature = hour.temperature.values.summary();
  const humidity = hour.humidity.values.summary();
  const wetOrBroken = state.full !== null && !state.full.dead;
  if (!humidity) return temperature ? { temperature, wetOrBroken } : { wetOrBroken };
  const uncertain = {
    humidity,
    humidityUncertainty_RH: humidityUncertainty_RH(state.creep_h, humidity.mean),
    wetOrBroken,
  };
  return temperature ? { temperature, ...uncertain } : uncertain;
}
