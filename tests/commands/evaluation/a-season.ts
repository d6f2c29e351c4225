/** A made-up season of one bed for scoring, and the changes that a watch might have told of it. */
import type { EvaluatedSeason, Fault, Rot } from '../../../services/commands/evaluation/season.js';
import type { Action, AlarmKind, Place } from '../../../services/core/model/alarm.js';
import { DAY_ms } from '../../../services/core/model/time.js';
import type { TimedChange } from '../../../services/core/watch/episodes.js';

export const DAYS = 120;

/** 3 W, 20 cm from p01, from day 30 on. */
export const ROT: Rot = {
  ...{ kind: 'rot', bed: 'pit-a', startDay: 30, endDay: null, grown_W: 3, growth_days: 4 },
  ...{ place: { x: 50, y: 50, depth: 30 }, nearest: { probe: 'p01', distance_cm: 20 } },
};

export const fault = (kind: Fault['fault'], probe: string, startDay: number, endDay: number): Fault => ({
  ...{ kind: 'fault', bed: 'pit-a', startDay, endDay, probe, fault: kind },
});

export interface TrueDays {
  /** Day from which p01 is 1 °C too warm, if ever. */
  readonly warmFrom?: number;
  readonly wetFrom?: number;
  /** Days on which its humidity is 98 %. */
  readonly humid?: readonly [from: number, to: number];
}

export function seasonWith(truth: EvaluatedSeason['truth'], days: TrueDays = {}): EvaluatedSeason {
  const { warmFrom = 1e9, wetFrom = 1e9, humid = [1e9, 1e9] } = days;
  return {
    ...{ scenario: 'made up', seed: 1, bed: 'pit-a', days: DAYS, startAt: 0, hours: [], truth },
    ...{ probes: 5, apart: false },
    watched: {} as EvaluatedSeason['watched'],
    trueHours: Array.from({ length: DAYS * 24 }, (_, index) => {
      const day = index / 24;
      const sand = {
        ...{ probe: 'p01', temperature_C: 20, excess_C: day >= warmFrom ? 1 : 0 },
        ...{ humidity_RH: day >= humid[0] && day < humid[1] ? 98 : 85, wet: day >= wetFrom },
      };
      return { hour: index + 1, sands: [sand] };
    }),
  };
}

export const at = (x: number, radius = 20): Place => ({ x, y: 50, depth: 30, radius });

export interface Saying {
  readonly kind?: AlarmKind;
  readonly action?: Action;
  readonly subject?: string;
  readonly place?: Place | null;
  readonly probe?: string;
}

export function raise(day: number, saying: Saying = {}): TimedChange {
  const { kind = 'heating', action = 'unpack', subject = '', place = null, probe } = saying;
  const evidence = probe === undefined ? {} : { probe };
  return { type: 'raise', kind, action, subject, priority: 'high', evidence, place, at: day * DAY_ms };
}

export const refine = (day: number, place: Place): TimedChange => ({
  ...{
    type: 'refine',
    kind: 'heating',
    action: 'unpack',
    subject: '',
    evidence: {},
    place,
    at: day * DAY_ms,
  },
});

export const clear = (day: number, saying: Saying = {}): TimedChange => {
  const { kind = 'heating', action = 'unpack', subject = '' } = saying;
  return { type: 'clear', kind, action, subject, at: day * DAY_ms };
};
