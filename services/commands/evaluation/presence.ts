/** When rot lies in a bed: a call to unpack is false only while there is none. */

/** Warmth stays behind so long after the rot has been taken out, days. Judgement. */
const LINGERS_days = 3;

/** A rot from its beginning to its being taken out, days after the filling; null where it stays. */
export interface RotSpan {
  readonly startDay: number;
  readonly endDay: number | null;
}

const endOf = ({ endDay }: RotSpan): number => endDay ?? Number.POSITIVE_INFINITY;

/** Whether a rot lies in the bed on a day, or has just been taken out. */
export const isSound = (rots: readonly RotSpan[], day: number): boolean =>
  !rots.some((rot) => day >= rot.startDay && day <= endOf(rot) + LINGERS_days);

/** Whether a rot lies in the bed on a day. */
export const isPresent = (rot: RotSpan, day: number): boolean => day >= rot.startDay && day <= endOf(rot);

/** Days of a season on which the bed was sound. */
export function soundDays(rots: readonly RotSpan[], days: number): number {
  let sound = 0;
  let from = 0;
  for (const rot of [...rots].sort((one, other) => one.startDay - other.startDay)) {
    sound += Math.max(0, Math.min(rot.startDay, days) - from);
    from = Math.max(from, Math.min(endOf(rot) + LINGERS_days, days));
  }
  return sound + Math.max(0, days - from);
}
