/** Times in answers and in questions: RFC 3339 text. */
import { z } from 'zod';
import { formatTime, timeSchema } from '../../core/model/time.js';

/** A time in an answer. */
export const timeTextSchema = z.string().meta({ format: 'date-time', description: 'RFC 3339, in UTC' });

/** A time in a query. */
export const timeQuerySchema = timeSchema.meta({ format: 'date-time' });

/** Text of a time that may not be known. */
export function formatKnownTime(time: number | null): string | null {
  return time === null ? null : formatTime(time);
}
