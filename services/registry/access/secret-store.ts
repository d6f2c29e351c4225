import type { Database } from '../database.js';

export const DEVICE_KINDS = ['probe', 'lamp'] as const;
export type DeviceKind = (typeof DEVICE_KINDS)[number];

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

export class DeviceSecretStore {
  readonly #put;
  readonly #list;
  readonly #remove;

  constructor(database: Database) {
    this.#put = database.prepare(
      'INSERT OR REPLACE INTO device_secret (name, kind, site, device, hash, made_at) VALUES (?, ?, ?, ?, ?, ?)',
    );
    this.#list = database.prepare(
      'SELECT name, kind, site, device, hash, made_at AS madeAt FROM device_secret ORDER BY name',
    );
    this.#remove = database.prepare('DELETE FROM device_secret WHERE name = ?');
  }

  /** A new secret takes the place of the one before. */
  put({ name, kind, site, device, hash, madeAt }: DeviceSecret): void {
    this.#put.run(name, kind, site, device, hash, madeAt);
  }

  /** By name. */
  list(): DeviceSecret[] {
    return this.#list.all() as DeviceSecret[];
  }

  /** @returns whether there was one */
  remove(name: string): boolean {
    return this.#remove.run(name).changes > 0;
  }
}
