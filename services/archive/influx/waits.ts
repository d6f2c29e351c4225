/** How long to wait before a server that was in trouble is tried again. */

/** Before the second attempt, ms: a server that restarts is back soon. */
const FIRST_ms = 1_000;

/** Never longer, ms: a server that comes back after weeks is found soon enough, and is not pestered meanwhile. */
const LONGEST_ms = 5 * 60_000;

/**
 * Twice as long each time up to the longest, of which half to all at random: services that lost one server together do not
 * come back together.
 *
 * @param failed attempts so far, at least 1
 * @param random in [0, 1)
 * @returns ms
 */
export function waitAfter_ms(failed: number, random: number): number {
  const full_ms = Math.min(FIRST_ms * 2 ** Math.min(failed - 1, 30), LONGEST_ms);
  return Math.round(full_ms * (0.5 + random / 2));
}
