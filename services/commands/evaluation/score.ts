/** What a watch's alarms were worth in one season, held against what was true. */
import type { TimedChange } from '../../core/watch/episodes.js';
import { isSound, soundDays } from './presence.js';
import { callsInFaults, type FaultScore, falseFaults, scoreFault } from './score-fault.js';
import { type RotScore, scoreRot } from './score-rot.js';
import { scoreWater, type WaterScores } from './score-water.js';
import type { EvaluatedSeason, Fault, Rot } from './season.js';
import { isHeating, type Told, toldOf } from './told.js';

const MONTH_days = 30;

export interface SeasonScore extends WaterScores {
  readonly scenario: string;
  readonly seed: number;
  readonly bed: string;
  readonly probes: number;
  /** Whether readings were planned to come late or the shade probe to be missing. */
  readonly apart: boolean;
  readonly rots: readonly RotScore[];
  readonly faults: readonly FaultScore[];
  /** Calls to unpack for heating that began while the bed was sound, and those to have a look. */
  readonly falseUnpack: number;
  readonly falseCheck: number;
  /** Calls to unpack a sound bed while any of its probes failed. */
  readonly unpackInFault: number;
  /** Alarms of a probe's fault or silence with nothing wrong with it. */
  readonly falseFault: number;
  readonly months: number;
  /** Without rot, of them. */
  readonly soundMonths: number;
}

export function scoreSeason(season: EvaluatedSeason, changes: readonly TimedChange[]): SeasonScore {
  const { scenario, seed, bed, truth, days, startAt, probes, apart } = season;
  const told = toldOf(bed, startAt, changes);
  const rots = truth.filter((one): one is Rot => one.kind === 'rot');
  const faults = truth.filter((one): one is Fault => one.kind === 'fault');
  const own = faults.filter((fault) => fault.bed === bed);
  const falsely = (asks: 'unpack' | 'check'): number =>
    told.filter((alarm: Told) => isHeating(alarm, asks) && isSound(rots, alarm.day)).length;
  return {
    ...{ scenario, seed, bed, probes, apart },
    rots: rots.map((rot) => scoreRot(rot, season, told)),
    faults: own.map((fault) => scoreFault(fault, own, told, rots)),
    falseUnpack: falsely('unpack'),
    falseCheck: falsely('check'),
    unpackInFault: callsInFaults(own, told, rots),
    falseFault: falseFaults(faults, told),
    months: days / MONTH_days,
    soundMonths: soundDays(rots, days) / MONTH_days,
    ...scoreWater(season, told),
  };
}
