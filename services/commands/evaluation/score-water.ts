/** How soon water was told: a wet front that reaches a probe, and slow damping. */
import type { TrueHour } from '../../../simulator/index.js';
import type { EvaluatedSeason } from './season.js';
import type { Told } from './told.js';

/** A front is told by the hour's end; it may be told in the hour in which it arrives. */
const HOUR_day = 1 / 24;
/** Sand at or above this for so long is damp, whatever anyone says of it. */
const DAMP = { from_RH: 97, for_h: 72 } as const;

/** Hours from a moment to its alarm, negative before it; null where it was never told. */
export interface WaterScore {
  readonly after_h: number | null;
}

export interface WaterScores {
  /** From the front's truly reaching the first probe; null where none did. */
  readonly wetting: WaterScore | null;
  /** From 97 % at a probe having truly lasted 3 days, where slow damping was planted; null where it never did. */
  readonly damping: WaterScore | null;
  /** Calls to unpack for wetting before any front arrived. To see to a probe that stays at 100 % is none. */
  readonly falseWetting: number;
  /** Calls to unpack for damp in a bed that no water was planted in. */
  readonly falseDamp: number;
}

/** Hour after the filling at whose end a probe's humidity has lasted long enough to be damp. */
function lastedHour(hours: readonly TrueHour[]): number | undefined {
  const lasting = new Map<string, number>();
  for (const { hour, sands } of hours)
    for (const { probe, humidity_RH } of sands) {
      const length = humidity_RH >= DAMP.from_RH ? (lasting.get(probe) ?? 0) + 1 : 0;
      lasting.set(probe, length);
      if (length >= DAMP.for_h) return hour;
    }
  return undefined;
}

export function scoreWater({ truth, trueHours }: EvaluatedSeason, told: readonly Told[]): WaterScores {
  const reached = trueHours.find(({ sands }) => sands.some(({ wet }) => wet))?.hour;
  const damping = truth.find(({ kind }) => kind === 'damping');
  const watered = damping !== undefined || truth.some(({ kind }) => kind === 'leak');
  const lasted = damping && lastedHour(trueHours);
  const arrivedDay = (reached ?? Number.POSITIVE_INFINITY) / 24 - HOUR_day;
  const wettings = told.filter(({ kind }) => kind === 'wetting');
  const damps = told.filter(({ kind }) => kind === 'damp');
  return {
    wetting: since(reached, wettings, arrivedDay),
    damping: since(lasted, damps, damping?.startDay ?? 0),
    falseWetting: wettings.filter(({ action, day }) => action === 'unpack' && day < arrivedDay).length,
    falseDamp: watered ? 0 : damps.filter(({ action }) => action === 'unpack').length,
  };
}

/** @param fromDay alarms before it do not count */
function since(hour: number | undefined, alarms: readonly Told[], fromDay: number): WaterScore | null {
  if (hour === undefined) return null;
  const alarm = alarms.find(({ day }) => day >= fromDay);
  return { after_h: alarm ? alarm.day * 24 - hour : null };
}
