/** How long to wait before a message is tried again. */

export interface Backoff {
  /** Before the second attempt, ms. */
  readonly first_ms: number;
  /** Never longer than this, ms. */
  readonly longest_ms: number;
}

/** Short enough for a router that restarts; long enough that a receiver that is down for days is not pestered. */
export const BACKOFF: Backoff = { first_ms: 2000, longest_ms: 15 * 60_000 };

/**
 * Doubles from the first wait to the longest, then takes between half and all of it at random, so that messages
 * that failed together do not come back together.
 *
 * @param attempts made so far, at least 1
 * @param random in [0, 1)
 * @returns ms
 */
export function waitAfter_ms(attempts: number, random: number, backoff: Backoff = BACKOFF): number {
  const full_ms = Math.min(backoff.first_ms * 2 ** (attempts - 1), backoff.longest_ms);
  return Math.round((full_ms / 2) * (1 + random));
}
