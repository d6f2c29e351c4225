/** A time of the wall clock, `HH:MM`, of no day and no zone. */
import { z } from 'zod';

const CLOCK_TIME = /^([01]\d|2[0-3]):[0-5]\d$/;

export const clockTimeSchema = z
  .string()
  .regex(CLOCK_TIME, 'expected a time of the clock from "00:00" to "23:59"');

/** Minutes since 00:00 on the clock's face, 0 to 1439; NaN where the text is no such time. */
export function minutesOfClock(text: string): number {
  if (!CLOCK_TIME.test(text)) return Number.NaN;
  return 60 * Number(text.slice(0, 2)) + Number(text.slice(3));
}
