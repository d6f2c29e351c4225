/** What of a table the archive would set aside, without taking it in: by the rules of `TakeIn`, beside what is at rest. */
import {
  createArchive,
  type Database,
  Foresight,
  MOST_PROBES_APART,
  MOST_ROWS_APART,
  type Put,
} from '../archive/index.js';
import { createRegistry } from '../registry/index.js';
import type { Foresee, SetAside, TableReading } from '../tables/import/index.js';
import { Directory, type KnownProbe } from './directory.js';
import { APART_FULL, beforePlacement, valueConflict } from './set-aside-words.js';

/** Benches that are looked through for a probe. */
const MOST_OPEN_BENCHES = 1000;

export interface Foreseen {
  kept: number;
  duplicates: number;
  apart: number;
}

export class ImportForesight {
  readonly counts: Foreseen = { kept: 0, duplicates: 0, apart: 0 };
  readonly #site: string;
  readonly #directory: Directory;
  readonly #foresight: Foresight;
  readonly #keys: ReturnType<typeof createArchive>['keys'];
  readonly #benchSince: ReadonlyMap<string, number>;
  /** Probes that are new to the archive, by name: keys of none. */
  readonly #fresh = new Map<string, number>();
  #apart: { rows: number; probes: number };

  /** @param database may be one for reading only */
  constructor(database: Database, site: string) {
    const archive = createArchive(database);
    const registry = createRegistry(database);
    this.#site = site;
    this.#keys = archive.keys;
    this.#directory = new Directory(
      registry.sites.descriptions(),
      (of, probe) => archive.keys.find(of, probe) ?? this.#freshKey(probe),
    );
    this.#foresight = new Foresight(database);
    this.#apart = archive.apart.size();
    this.#benchSince = new Map(
      registry.benches
        .list({ site, state: 'open', limit: MOST_OPEN_BENCHES })
        .flatMap(({ probes, startedAt }) => probes.map((probe) => [probe, startedAt] as const)),
    );
  }

  isKnown(probe: string): boolean {
    return this.#directory.find(this.#site, probe) !== undefined;
  }

  /** Why something of a reading would be set aside; nothing where all of it would be kept. */
  readonly foresee: Foresee = (reading) => {
    const known = this.#directory.find(this.#site, reading.probe);
    return known ? this.#keep(known, reading) : this.#keepApart(reading);
  };

  #keep(known: KnownProbe, { probe, time, values }: TableReading): SetAside[] {
    const first = known.stays[0];
    const benchSince = this.#benchSince.get(probe) ?? Number.POSITIVE_INFINITY;
    if (first && !(time >= Math.min(first.from, benchSince)))
      return [{ reason: 'before-placement', detail: beforePlacement(first.from, time) }];
    const put = this.#foresight.put('reading', known.key, time, values);
    this.counts.kept += put.kept;
    return this.#conflicts(put, time);
  }

  #keepApart({ probe, time, values }: TableReading): SetAside[] {
    const isNew = this.#keys.find(this.#site, probe) === undefined && !this.#fresh.has(probe);
    if (this.#apart.rows >= MOST_ROWS_APART || (isNew && this.#apart.probes >= MOST_PROBES_APART))
      return [{ reason: 'apart-full', detail: APART_FULL }];
    const key = this.#keys.find(this.#site, probe) ?? this.#freshKey(probe);
    const put = this.#foresight.put('apart', key, time, values);
    this.counts.apart += put.kept;
    if (put.kept > 0)
      this.#apart = { rows: this.#apart.rows + 1, probes: this.#apart.probes + (isNew ? 1 : 0) };
    return this.#conflicts(put, time);
  }

  #conflicts({ duplicates, conflicts }: Put, time: number): SetAside[] {
    this.counts.duplicates += duplicates;
    return conflicts.map(({ quantity, kept, refused }) => ({
      reason: 'value-conflict',
      detail: valueConflict(quantity, kept, refused, time),
    }));
  }

  #freshKey(probe: string): number {
    const key = this.#fresh.get(probe) ?? -1 - this.#fresh.size;
    this.#fresh.set(probe, key);
    return key;
  }
}
