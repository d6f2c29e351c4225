/** Whether people who were told where to dig must be told again. */
import type { Place } from '../model/alarm.js';

/**
 * A place is told anew when it has moved farther than this, cm: whoever digs where they were told then digs beside
 * it. A hole that one person digs by hand is about 40 cm across (from memory).
 */
const FARTHEST_cm = 40;

/** A place is told anew when its radius has fallen to this share: an eighth of the sand is left to dig. */
const NARROWER_share = 0.5;

/**
 * @param told the place that people were told last, cm; null where they were told none
 * @param now the place as it is known now, cm; null where there is none
 */
export function mustBeToldAnew(told: Place | null, now: Place | null): boolean {
  if (told === null || now === null) return false;
  const moved_cm = Math.hypot(now.x - told.x, now.y - told.y, now.depth - told.depth);
  return moved_cm > FARTHEST_cm || now.radius <= NARROWER_share * told.radius;
}
