/** How much one person has been told today, and of which season. */

import { DAY_ms } from '../../model/time.js';
import type { Pending } from './due.js';
import type { LocalClock } from './local-clock.js';
import type { BedToTell, ToldRecord } from './types.js';

/**
 * What may still be told of a bed today.
 *
 * - `open`: anything
 * - `last`: one summary
 * - `closed`: nothing
 */
export type Gate = 'open' | 'last' | 'closed';

export class PersonDay {
  readonly #most: number;
  readonly #messages = new Map<string, Set<string>>();
  readonly #closed = new Set<string>();
  readonly #cautioned: Set<string>;

  /** @param heard all that the person was told */
  constructor(
    heard: readonly ToldRecord[],
    beds: ReadonlyMap<string, BedToTell>,
    { clock, now, most }: { readonly clock: LocalClock; readonly now: number; readonly most: number },
  ) {
    this.#most = most;
    const today = clock.dayOf(now);
    // No day is longer than 25 h; to ask the clock of each record of a season takes long.
    const lately = heard.filter(({ at }) => at > now - 2 * DAY_ms);
    for (const record of lately.filter(({ at }) => clock.dayOf(at) === today)) {
      this.count(record.bed, record.message);
      if (record.closing) this.close(record.bed);
    }
    const inSeason = ({ bed, at }: ToldRecord): boolean =>
      at >= (beds.get(bed)?.filled ?? Number.NEGATIVE_INFINITY);
    this.#cautioned = new Set(
      heard.filter((record) => record.caution && inSeason(record)).map(({ bed }) => bed),
    );
  }

  count(bed: string, message: string): void {
    const messages = this.#messages.get(bed) ?? new Set();
    this.#messages.set(bed, messages.add(message));
  }

  close(bed: string): void {
    this.#closed.add(bed);
  }

  /** The last place of the day is kept for the summary. A new `unpack` passes always. */
  gateFor({ alarm, fresh }: Pending): Gate {
    if (fresh) return 'open';
    if (this.#closed.has(alarm.bed)) return 'closed';
    return (this.#messages.get(alarm.bed)?.size ?? 0) < this.#most - 1 ? 'open' : 'last';
  }

  /** Whether the cautions are due with it; they are then taken for told. */
  takeCaution({ alarm, event }: Pending): boolean {
    if (alarm.action !== 'unpack' || event !== 'raised' || this.#cautioned.has(alarm.bed)) return false;
    this.#cautioned.add(alarm.bed);
    return true;
  }
}
