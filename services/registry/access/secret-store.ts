import type { DeviceKind } from '../../core/model/device.js';
import type { Database } from '../database.js';

/** A device with a secret of its own at the broker. */
export interface DeviceSecret {
  /** User name at the broker: `ridge-station.p01`. */
  readonly name: string;
  readonly kind: DeviceKind;
  readonly site: string;
  /** Id of the probe, or name of the lamp. */
  readonly device: string;
  /** As a password file of Mosquitto has it. */
  readonly hash: string;
  /** Wall clock, ms. */
  readonly madeAt: number;
}

const COLUMNS = 'name, kind, site, device, hash, made_at AS madeAt';

/** Grows with every change, by this process or another. */
const CHANGES = 'device-secret-changes';

export class DeviceSecretStore {
  readonly #put;
  readonly #get;
  readonly #list;
  readonly #count;
  readonly #remove;
  readonly #changes;

  constructor(database: Database) {
    const put = database.prepare(
      'INSERT OR REPLACE INTO device_secret (name, kind, site, device, hash, made_at) VALUES (?, ?, ?, ?, ?, ?)',
    );
    const remove = database.prepare('DELETE FROM device_secret WHERE name = ?');
    const count = database.prepare(
      `INSERT INTO own (name, value) VALUES ('${CHANGES}', '1')
       ON CONFLICT (name) DO UPDATE SET value = CAST(CAST(value AS INTEGER) + 1 AS TEXT)`,
    );
    this.#get = database.prepare(`SELECT ${COLUMNS} FROM device_secret WHERE name = ?`);
    this.#list = database.prepare(`SELECT ${COLUMNS} FROM device_secret ORDER BY name`);
    this.#count = database.prepare('SELECT count(*) FROM device_secret').pluck();
    this.#changes = database.prepare(`SELECT value FROM own WHERE name = '${CHANGES}'`).pluck();
    this.#put = database.transaction(({ name, kind, site, device, hash, madeAt }: DeviceSecret) => {
      put.run(name, kind, site, device, hash, madeAt);
      count.run();
    });
    this.#remove = database.transaction((name: string) => {
      const { changes } = remove.run(name);
      if (changes > 0) count.run();
      return changes > 0;
    });
  }

  /** A new secret takes the place of the one before. */
  put(secret: DeviceSecret): void {
    this.#put.immediate(secret);
  }

  get(name: string): DeviceSecret | undefined {
    return this.#get.get(name) as DeviceSecret | undefined;
  }

  /** By name. */
  list(): DeviceSecret[] {
    return this.#list.all() as DeviceSecret[];
  }

  count(): number {
    return this.#count.get() as number;
  }

  /** @returns whether there was one */
  remove(name: string): boolean {
    return this.#remove.immediate(name);
  }

  /** Another text than before where any was made, renewed or taken away since. */
  changes(): string {
    return (this.#changes.get() as string | undefined) ?? '0';
  }
}
