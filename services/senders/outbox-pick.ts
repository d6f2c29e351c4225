/** Which of the due messages go out next. */
import type { Outbox, OutboxMessage } from './ports.js';

/** One receiver on one way. */
export function targetOf(message: Pick<OutboxMessage, 'via' | 'to'>): string {
  return `${message.via} ${message.to}`;
}

/**
 * Picks at most one message for each target: the one tried least often, and of these the first. So a message that
 * a receiver chokes on does not hold up the others.
 *
 * @param due oldest first
 * @param free how many may start
 * @param held whether a message has to wait for something else than its time
 */
export function pickMessages(
  due: readonly OutboxMessage[],
  free: number,
  held: (message: OutboxMessage) => boolean,
): OutboxMessage[] {
  const picked = new Map<string, OutboxMessage>();
  for (const message of due) {
    if (held(message)) continue;
    const rival = picked.get(targetOf(message));
    if (!rival || message.attempts < rival.attempts) picked.set(targetOf(message), message);
  }
  return [...picked.values()].slice(0, free);
}

/** How many due messages are looked at to begin with, and at the most. */
export const WINDOW = { first: 100, widest: 10_000 } as const;

/**
 * Picks from the outbox. Looks at more of it where the oldest messages all wait for the same few targets, so that
 * a receiver that is away does not hide the others.
 */
export function pickDue(
  outbox: Pick<Outbox, 'due'>,
  now: number,
  free: number,
  held: (message: OutboxMessage) => boolean,
): OutboxMessage[] {
  for (let most: number = WINDOW.first; ; most *= 10) {
    const due = outbox.due(now, most);
    const picked = pickMessages(due, free, held);
    if (picked.length >= free || due.length < most || most >= WINDOW.widest) return picked;
  }
}
