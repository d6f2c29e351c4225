/** What a watch's alarms were worth, held against what was true. */
import { dayOfExcess, type Truth } from '../../../simulator/index.js';
import type { Place } from '../../core/model/alarm.js';
import type { EvaluatedSeason } from './season.js';
import type { DayChange } from './watched-season.js';

/** An alarm counts for a rot that began at most so many days before. Judgement. */
const COUNTS_FOR_days = 40;
/** True excess at the nearest probe from which a watch could know, °C. */
const KNOWABLE_C = 0.5;
/** Where a rot lies is asked again so many days after its alarm. */
const LATER_days = 4;
/** Days within which a fault is to be told; a drift may take longer. */
const TOLD_days = { drift: 21, other: 3 } as const;
const MONTH_days = 30;

type Rot = Extract<Truth, { kind: 'rot' }>;

export interface RotScore {
  readonly grown_W: number;
  readonly distance_cm: number | null;
  readonly startDay: number;
  /** Null where it never was so warm. */
  readonly knowableDay: number | null;
  readonly foundDay: number | null;
  readonly error_cm: number | null;
  readonly radius_cm: number | null;
  readonly laterError_cm: number | null;
}

export interface FaultScore {
  readonly fault: string;
  readonly recognised: boolean;
}

export interface SeasonScore {
  readonly scenario: string;
  readonly seed: number;
  readonly bed: string;
  readonly rots: readonly RotScore[];
  readonly faults: readonly FaultScore[];
  readonly falseUnpack: number;
  readonly falseCheck: number;
  /** Months before any rot began. */
  readonly soundMonths: number;
  /** From the front's reaching the first probe, h; null where there was none. */
  readonly wettingAfter_h: number | null;
}

const isRaised = (change: DayChange, kind: string, action?: string): boolean =>
  change.type === 'raise' && change.kind === kind && (action === undefined || change.action === action);

const off = (place: Place, { place: truth }: Rot): number =>
  Math.hypot(place.x - truth.x, place.y - truth.y, place.depth - truth.depth);

export function scoreSeason(season: EvaluatedSeason, changes: readonly DayChange[]): SeasonScore {
  const { scenario, seed, bed, truth, days } = season;
  const rots = truth.filter((one): one is Rot => one.kind === 'rot');
  const first = rots.reduce((day, { startDay }) => Math.min(day, startDay), Number.POSITIVE_INFINITY);
  const early = (action: string): number =>
    changes.filter((change) => isRaised(change, 'heating', action) && change.day < first).length;
  return {
    ...{ scenario, seed, bed },
    rots: rots.map((rot) => scoreRot(rot, season, changes)),
    faults: truth.flatMap((one) =>
      one.kind === 'fault' && one.bed === bed ? [scoreFault(one, changes)] : [],
    ),
    falseUnpack: early('unpack'),
    falseCheck: early('check'),
    soundMonths: Math.min(days, first) / MONTH_days,
    wettingAfter_h: wettingAfter(season, changes),
  };
}

function scoreRot(rot: Rot, { trueHours }: EvaluatedSeason, changes: readonly DayChange[]): RotScore {
  const until = Math.min(rot.endDay ?? Number.POSITIVE_INFINITY, rot.startDay + COUNTS_FOR_days);
  const found = changes.find(
    (change) => isRaised(change, 'heating', 'unpack') && change.day >= rot.startDay && change.day <= until,
  );
  const places = changes.flatMap((change) =>
    found &&
    change.type !== 'clear' &&
    change.kind === 'heating' &&
    change.action === 'unpack' &&
    change.place
      ? [{ day: change.day, place: change.place }]
      : [],
  );
  const at = places.find(({ day }) => day === found?.day)?.place;
  const later = places.findLast(({ day }) => day <= (found?.day ?? 0) + LATER_days)?.place;
  return {
    grown_W: rot.grown_W,
    distance_cm: rot.nearest?.distance_cm ?? null,
    startDay: rot.startDay,
    knowableDay: rot.nearest ? (dayOfExcess(trueHours, rot.nearest.probe, KNOWABLE_C) ?? null) : null,
    foundDay: found?.day ?? null,
    error_cm: at ? off(at, rot) : null,
    radius_cm: at?.radius ?? null,
    laterError_cm: later ? off(later, rot) : null,
  };
}

function scoreFault(
  { fault, probe, startDay }: Extract<Truth, { kind: 'fault' }>,
  changes: readonly DayChange[],
): FaultScore {
  const until = startDay + (fault === 'drift' ? TOLD_days.drift : TOLD_days.other);
  const recognised = changes.some(
    (change) =>
      change.subject === probe &&
      (isRaised(change, 'probe-fault') || isRaised(change, 'probe-silent')) &&
      change.day >= startDay &&
      change.day <= until,
  );
  return { fault, recognised };
}

function wettingAfter({ trueHours }: EvaluatedSeason, changes: readonly DayChange[]): number | null {
  const reached = trueHours.find(({ sands }) => sands.some(({ wet }) => wet));
  if (!reached) return null;
  const told = changes.find((change) => isRaised(change, 'wetting'));
  return told ? told.day * 24 - reached.hour : Number.POSITIVE_INFINITY;
}
