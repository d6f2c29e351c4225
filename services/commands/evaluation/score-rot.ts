/** Whether a rot was found, when, and where it was said to be. */
import { dayOfExcess } from '../../../simulator/index.js';
import type { Place } from '../../core/model/alarm.js';
import { handDay } from './hand.js';
import { isPresent } from './presence.js';
import type { EvaluatedSeason, Rot } from './season.js';
import { isHeating, type Told } from './told.js';

/** An alarm counts for a rot that began at most so many days before. Judgement. */
export const COUNTS_FOR_days = 40;
/** True excess at the nearest probe from which a watch could know, °C. */
const KNOWABLE_C = 0.5;
/** Where a rot lies is asked again so many days after its alarm. */
const LATER_days = 4;

export interface RotScore {
  readonly grown_W: number;
  /** To the nearest probe, cm; null for a bed without. */
  readonly distance_cm: number | null;
  readonly startDay: number;
  readonly endDay: number | null;
  /** When the true excess at the nearest probe passed 0.5 °C; null where it never did. */
  readonly knowableDay: number | null;
  readonly foundDay: number | null;
  readonly handDay: number | null;
  readonly fromOnset_h: number | null;
  /** Negative before it was knowable. */
  readonly fromKnowable_h: number | null;
  readonly beforeHand_days: number | null;
  /** Null where the alarm gave no place, or its place lies nearer to another rot. */
  readonly error_cm: number | null;
  readonly radius_cm: number | null;
  readonly laterError_cm: number | null;
  readonly laterRadius_cm: number | null;
}

const off_cm = (place: Place, { place: truth }: Rot): number =>
  Math.hypot(place.x - truth.x, place.y - truth.y, place.depth - truth.depth);

const less = (one: number | null, other: number | null): number | null =>
  one === null || other === null ? null : one - other;

export function scoreRot(rot: Rot, season: EvaluatedSeason, told: readonly Told[]): RotScore {
  const { startDay, endDay, grown_W, nearest } = rot;
  const until = Math.min(endDay ?? Number.POSITIVE_INFINITY, startDay + COUNTS_FOR_days);
  const alarm = told.find((one) => isHeating(one, 'unpack') && one.day >= startDay && one.day <= until);
  const foundDay = alarm?.day ?? null;
  const knowableDay = nearest ? (dayOfExcess(season.trueHours, nearest.probe, KNOWABLE_C) ?? null) : null;
  const hand = handDay(rot, season.days);
  const late_days = less(foundDay, knowableDay);
  return {
    ...{ grown_W, distance_cm: nearest?.distance_cm ?? null, startDay, endDay, knowableDay, foundDay },
    handDay: hand,
    fromOnset_h: foundDay === null ? null : (foundDay - startDay) * 24,
    fromKnowable_h: late_days === null ? null : late_days * 24,
    beforeHand_days: less(hand, foundDay),
    ...placesOf(rot, season, alarm),
  };
}

type Places = Pick<RotScore, 'error_cm' | 'radius_cm' | 'laterError_cm' | 'laterRadius_cm'>;

function placesOf(rot: Rot, { truth }: EvaluatedSeason, alarm: Told | undefined): Places {
  const [first] = alarm?.places ?? [];
  const latest = alarm?.places.findLast(({ day }) => day <= alarm.day + LATER_days);
  const others = truth.filter((one): one is Rot => one.kind === 'rot' && isPresent(one, alarm?.day ?? 0));
  const isOwn = first && others.every((other) => off_cm(first.place, other) >= off_cm(first.place, rot));
  if (!isOwn || !latest)
    return { error_cm: null, radius_cm: null, laterError_cm: null, laterRadius_cm: null };
  return {
    error_cm: off_cm(first.place, rot),
    radius_cm: first.place.radius,
    laterError_cm: off_cm(latest.place, rot),
    laterRadius_cm: latest.place.radius,
  };
}
