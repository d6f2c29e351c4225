/** Writes the audit trail, and reads it. */
import { HOUR_ms } from '../../core/model/time.js';
import type { DeedView } from '../../http/index.js';
import type { AccessStores, AuditEntry } from '../../registry/index.js';

/** Longest text of one part: what comes from outside is cut. Characters. */
const MOST_characters = 300;

/** Refusals noted within an hour: whoever is refused thousands of times fills no disk. */
const REFUSALS_an_hour = 60;

export class AuditDesk {
  readonly #stores: Pick<AccessStores, 'audit'>;
  /** Wall clock, ms. */
  readonly #now: () => number;
  #hour = Number.NaN;
  #refusals = 0;

  constructor(stores: Pick<AccessStores, 'audit'>, now: () => number) {
    this.#stores = stores;
    this.#now = now;
  }

  began(deed: DeedView): number {
    return this.#stores.audit.begin(this.#whole(deed));
  }

  ended(began: number, deed: DeedView, result: string): void {
    this.#stores.audit.end(began, this.#whole(deed), cut(result));
  }

  /** What was done and is over. */
  note(deed: DeedView, result: string): void {
    this.#stores.audit.begin(this.#whole(deed), cut(result));
  }

  /** What was refused: the first of an hour one by one, of the rest how many there were. */
  refused(deed: DeedView, result: string): void {
    const hour = Math.floor(this.#now() / HOUR_ms);
    if (hour !== this.#hour) this.#noteRest();
    this.#hour = hour;
    this.#refusals += 1;
    if (this.#refusals <= REFUSALS_an_hour) this.note(deed, result);
  }

  list(before: number, limit: number): readonly AuditEntry[] {
    return this.#stores.audit.list(before, limit);
  }

  #noteRest(): void {
    const more = this.#refusals - REFUSALS_an_hour;
    this.#refusals = 0;
    if (more > 0)
      this.note(
        { who: 'the service', how: 'itself', address: '', did: 'refused', what: 'more within an hour' },
        `${more} times`,
      );
  }

  #whole(deed: DeedView) {
    return {
      ...{ at: this.#now(), who: cut(deed.who), how: cut(deed.how), address: cut(deed.address) },
      ...{ did: cut(deed.did), what: cut(deed.what) },
    };
  }
}

const cut = (text: string): string => text.slice(0, MOST_characters);
