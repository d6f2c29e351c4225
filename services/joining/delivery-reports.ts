/** What the network says became of a short message that it had taken. */
import type { Registry } from '../registry/index.js';

export interface DeliveryReport {
  /** Of the message in the outbox. */
  readonly key: string;
  /** The receiver has it; else the network has given it up. */
  readonly ok: boolean;
}

const LOST = 'the network took it and could not bring it to its receiver';

/**
 * Keeps a report, within the caller's transaction. What did not arrive counts as not told: the next plan uses the next
 * way, or the next person.
 *
 * @param now wall clock, ms: the network's own may be another
 */
export function noteReport({ outbox }: Registry, { key, ok }: DeliveryReport, now: number): void {
  if (ok) outbox.received(key, now);
  else outbox.lost(key, now, LOST);
}
