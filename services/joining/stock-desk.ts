/** The ledger of a bed at rest: entries that were written down, and those that follow from fillings and inspections. */
import { SandlarderError } from '../core/errors.js';
import {
  countable,
  counterOfSuperseded,
  emptyLedger,
  entriesOfInspection,
  entryOfFilling,
  type Ledger,
  rootsAt,
  withEntries,
} from '../core/keeping/index.js';
import type { Filling } from '../core/model/filling.js';
import type { StockBody, StockEntry } from '../core/model/stock.js';
import { LATEST_TIME_ms } from '../core/model/time.js';
import type { StockedView } from '../http/index.js';
import type { KeptStockEntry } from '../registry/index.js';
import { derivedId } from './derived-id.js';
import type { KnownBed } from './directory.js';
import { requireCome } from './known-bed.js';
import type { Station } from './station.js';

/** Entries of one bed: some hundreds make a season. Bounds what a mistaken script can do to the board. */
const MOST_ENTRIES = 20_000;

export class StockDesk {
  readonly #station: Station;
  /** Wall clock, ms. */
  readonly #now: () => number;

  constructor(station: Station, now: () => number) {
    this.#station = station;
    this.#now = now;
  }

  ledger(bed: string): Ledger {
    const entries = this.#station.registry.stock.ofBed(bed).map(({ entry }) => entry);
    return { ...emptyLedger(bed), entries };
  }

  /** Roots left in a bed; null where its stock is not kept. */
  left(bed: string): number | null {
    const ledger = this.ledger(bed);
    return ledger.entries.length === 0 ? null : rootsAt(ledger, LATEST_TIME_ms);
  }

  /**
   * Takes in entries with all that follows from records, within the caller's transaction.
   *
   * @param filled fillings that are new
   * @returns the entries that were given, and whether each was not there before
   * @throws SandlarderError as `withEntries`, and CONFLICT for an id that an entry of another bed has
   */
  enter(
    { site, bed }: KnownBed,
    bodies: readonly StockBody[],
    filled: readonly Filling[],
  ): StockedView['entries'] {
    const { stock } = this.#station.registry;
    const ledger = this.ledger(bed.id);
    const known = new Set(ledger.entries.map(({ id }) => id));
    const given = bodies.map((body): KeptStockEntry => ({ entry: { ...body, bed: bed.id }, origin: null }));
    for (const { entry } of given) if (!known.has(entry.id)) this.#requireNew(bed.id, entry);
    const pending = this.#ofFillings(ledger, filled);
    const looks = this.#ofInspections(bed.id, [
      ...ledger.entries,
      ...[...given, ...pending].map(({ entry }) => entry),
    ]);
    const arrived = [...given, ...pending, ...looks.filter(({ entry }) => !known.has(entry.id))];
    const after = withEntries(
      ledger,
      arrived.map(({ entry }) => entry),
    );
    if (!(after.entries.length <= MOST_ENTRIES))
      throw new SandlarderError(
        'LIMIT_EXCEEDED',
        `stock of bed ${bed.id}: expected at most ${MOST_ENTRIES} entries, got ${after.entries.length}`,
      );
    const written = new Set(known);
    for (const kept of arrived) {
      if (written.has(kept.entry.id)) continue;
      stock.add(site.id, kept, this.#now());
      written.add(kept.entry.id);
    }
    const origins = new Map(stock.ofBed(bed.id).map(({ entry, origin }) => [entry.id, origin]));
    return given.map(({ entry }) => ({
      ...{ entry, origin: origins.get(entry.id) ?? null, isNew: !known.has(entry.id) },
    }));
  }

  #requireNew(bed: string, { id, at }: StockEntry): void {
    requireCome(at, this.#now());
    const other = this.#station.registry.stock.bedOf(id);
    if (other !== undefined)
      throw new SandlarderError(
        'CONFLICT',
        `stock entry ${id}: expected an id of its own for bed ${bed}, got that of an entry of bed ${other}`,
      );
  }

  #ofFillings(ledger: Ledger, filled: readonly Filling[]): KeptStockEntry[] {
    const pending: KeptStockEntry[] = [];
    for (const filling of filled) {
      const superseded = filling.supersedes && this.#station.registry.fillings.get(filling.supersedes);
      const entries = [...ledger.entries, ...pending.map(({ entry }) => entry)];
      const counter =
        superseded && counterOfSuperseded({ ...ledger, entries }, superseded, filling, derivedId);
      if (counter) pending.push({ entry: counter, origin: filling.id });
      pending.push({ entry: entryOfFilling(filling, derivedId), origin: filling.id });
    }
    return pending;
  }

  /** Of all inspections: one that came before the filling counts as soon as that is written down. */
  #ofInspections(bed: string, entries: readonly StockEntry[]): KeptStockEntry[] {
    return this.#station.registry.inspections.between(bed, 0, LATEST_TIME_ms).flatMap((inspection) =>
      countable(entriesOfInspection(inspection, derivedId), entries).map((entry) => ({
        ...{ entry, origin: inspection.id },
      })),
    );
  }
}
