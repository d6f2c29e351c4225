/**
 * The hand that goes into the sand every second week, for scale. It finds a rot at the first look at which the rot
 * is old and strong enough, and looks everywhere: judgement, in the hand's favour.
 */
import { rot_W } from '../../../simulator/index.js';
import type { Rot } from './season.js';

const HAND = { every_days: 14, olderThan_days: 2, above_W: 1 } as const;

/**
 * @param days length of the season
 * @returns the day on which a rot is found; null where it never is
 */
export function handDay(rot: Rot, days: number): number | null {
  const until = Math.min(days, rot.endDay ?? days);
  const power_W = (day: number): number => rot_W({ ...rot, ...rot.place }, day);
  for (let look = HAND.every_days; look <= until; look += HAND.every_days)
    if (look - rot.startDay > HAND.olderThan_days && power_W(look) > HAND.above_W) return look;
  return null;
}
