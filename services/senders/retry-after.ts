/** The `Retry-After` header, RFC 9110 section 10.2.3: seconds, or a date. */

/** A receiver can ask for no more than this, ms: a wrong header must not silence an alarm for a day. */
export const LONGEST_RETRY_AFTER_ms = 3_600_000;

const SECONDS = /^\d{1,15}$/;
/** IMF-fixdate, RFC 9110 section 5.6.7. */
const DATE = /^(Mon|Tue|Wed|Thu|Fri|Sat|Sun), \d\d [A-Z][a-z]{2} \d{4} \d\d:\d\d:\d\d GMT$/;

/**
 * Reads how long the receiver asks to be left alone, at most an hour.
 *
 * @param now wall clock, ms
 * @returns ms, 0 for a date that has passed; undefined where the header is absent or neither form
 */
export function retryAfter_ms(header: string | null, now: number): number | undefined {
  const text = header?.trim() ?? '';
  const wait_ms = SECONDS.test(text)
    ? Number(text) * 1000
    : DATE.test(text)
      ? Date.parse(text) - now
      : Number.NaN;
  if (Number.isNaN(wait_ms)) return undefined;
  return Math.min(Math.max(wait_ms, 0), LONGEST_RETRY_AFTER_ms);
}
