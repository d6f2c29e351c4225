import type { Database } from './database.js';

/** Small integers that stand for a site's probes in the tables of readings. */
export class ProbeKeys {
  readonly #known = new Map<string, number>();
  readonly #find;
  readonly #add;
  readonly #name;

  constructor(database: Database) {
    this.#find = database.prepare('SELECT key FROM probe_key WHERE site = ? AND probe = ?').pluck();
    this.#name = database.prepare('SELECT site, probe FROM probe_key WHERE key = ?');
    this.#add = database.prepare('INSERT INTO probe_key (site, probe) VALUES (?, ?)');
  }

  /** The probe's key where it has one. */
  find(site: string, probe: string): number | undefined {
    const name = `${site}/${probe}`;
    const known = this.#known.get(name);
    if (known !== undefined) return known;
    const key = this.#find.get(site, probe) as number | undefined;
    if (key !== undefined) this.#known.set(name, key);
    return key;
  }

  /** Whom a key stands for. */
  nameOf(key: number): { readonly site: string; readonly probe: string } {
    const name = this.#name.get(key) as { site: string; probe: string } | undefined;
    if (!name) throw new Error(`expected the key of a probe, got ${key}`);
    return name;
  }

  /** Forgets what is in memory: for after a transaction that failed, whose keys were never written. */
  forget(): void {
    this.#known.clear();
  }

  /** The probe's key, made now where it had none. */
  keyOf(site: string, probe: string): number {
    return this.find(site, probe) ?? Number(this.#add.run(site, probe).lastInsertRowid);
  }
}
