import type { StockEntry } from '../core/model/stock.js';
import type { Database } from './database.js';

/** An entry, and the filling or inspection that it follows from; null where it was written down by itself. */
export interface KeptStockEntry {
  readonly entry: StockEntry;
  readonly origin: string | null;
}

/** The ledgers of beds. */
export class StockStore {
  readonly #add;
  readonly #ofBed;
  readonly #bedOf;

  constructor(database: Database) {
    this.#add = database.prepare(
      'INSERT INTO stock_entry (id, site, bed, at, document, origin, written_at) VALUES (?, ?, ?, ?, ?, ?, ?)',
    );
    this.#ofBed = database.prepare('SELECT document, origin FROM stock_entry WHERE bed = ? ORDER BY at, id');
    this.#bedOf = database.prepare('SELECT bed FROM stock_entry WHERE id = ?').pluck();
  }

  /** @param writtenAt wall clock, ms */
  add(site: string, { entry, origin }: KeptStockEntry, writtenAt: number): void {
    const { id, bed, at } = entry;
    this.#add.run(id, site, bed, at, JSON.stringify(entry), origin, writtenAt);
  }

  /** By time, then id: the order of a ledger. */
  ofBed(bed: string): KeptStockEntry[] {
    return (this.#ofBed.all(bed) as { document: string; origin: string | null }[]).map(
      ({ document, origin }) => ({ entry: JSON.parse(document) as StockEntry, origin }),
    );
  }

  /** The bed that an entry is of; undefined where there is none of that id. */
  bedOf(id: string): string | undefined {
    return this.#bedOf.get(id) as string | undefined;
  }
}
