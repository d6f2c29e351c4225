/** What becomes of a message after an attempt that failed. */
import { BACKOFF, type Backoff, waitAfter_ms } from './backoff.js';
import { DeliveryError } from './delivery-error.js';
import { oneLine } from './one-line.js';
import type { OutboxMessage } from './ports.js';

export interface Patience {
  readonly backoff: Backoff;
  /** Age at which a message is given up, ms: an alarm of last week helps nobody. */
  readonly giveUp_ms: number;
  /** Attempts before age counts: a board without a clock may have written a message "in 1970". */
  readonly leastAttempts: number;
  /** Attempts at a receiver that refuses: it may be mended within the minute. */
  readonly refusedAttempts: number;
}

export const PATIENCE: Patience = {
  backoff: BACKOFF,
  giveUp_ms: 7 * 86_400_000,
  leastAttempts: 10,
  refusedAttempts: 3,
};

export type Verdict =
  | {
      readonly type: 'again';
      readonly nextAttemptAt: number;
      readonly reason: string;
      /** The receiver asked to be left alone until then; undefined where it did not ask. */
      readonly holdUntil: number | undefined;
    }
  | { readonly type: 'give-up'; readonly reason: string };

/** Characters of a reason kept with its message. */
const REASON_LENGTH = 1000;

/** The text of anything that was thrown, on one line, never empty. */
export function reasonOf(error: unknown): string {
  return oneLine(error instanceof Error ? error.message : String(error), REASON_LENGTH) || 'no reason given';
}

/**
 * Decides whether and when a message is tried again.
 *
 * @param message with the attempts before this one
 * @param at wall clock when the attempt had failed, ms
 * @param random in [0, 1): spreads the wait
 */
export function verdictOn(
  message: OutboxMessage,
  error: unknown,
  at: number,
  random: number,
  patience: Patience = PATIENCE,
): Verdict {
  const reason = reasonOf(error);
  const attempts = message.attempts + 1;
  const delivery = error instanceof DeliveryError ? error : undefined;
  if (delivery?.permanent && attempts >= patience.refusedAttempts)
    return { type: 'give-up', reason: `refused ${attempts} times, the last time: ${reason}` };
  if (attempts >= patience.leastAttempts && at - message.createdAt >= patience.giveUp_ms)
    return { type: 'give-up', reason: `tried ${attempts} times, the last time: ${reason}` };
  const asked_ms = delivery?.retryAfter_ms ?? 0;
  const wait_ms = Math.max(waitAfter_ms(attempts, random, patience.backoff), asked_ms);
  return {
    type: 'again',
    nextAttemptAt: at + wait_ms,
    reason,
    holdUntil: asked_ms > 0 ? at + asked_ms : undefined,
  };
}
