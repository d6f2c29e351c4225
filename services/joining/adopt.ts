/**
 * Takes in the readings of probes that were unknown when they arrived and are known by now.
 */

import type { Values } from '../archive/index.js';
import { QUANTITIES } from '../core/model/quantity.js';
import type { Station } from './station.js';
import type { TakeIn } from './take-in.js';

/** Rows moved in one transaction: keeps readings that arrive meanwhile from waiting long. */
const ROWS_AT_A_TIME = 5_000;

/**
 * Moves some rows of one adopted probe.
 *
 * @param now wall clock, ms
 * @returns whether there may be more to move
 */
export function adoptSome(station: Station, takeIn: TakeIn, now: number): boolean {
  return station.inTransaction(() => {
    for (const { key, site, probe } of station.archive.apart.list()) {
      const known = station.directory.find(site, probe);
      if (!known) continue;
      const rows = station.archive.apart.rows(key, ROWS_AT_A_TIME);
      for (const row of rows) {
        const values: Values = {};
        for (const quantity of QUANTITIES) {
          const value = row[quantity];
          if (value !== null) values[quantity] = value;
        }
        takeIn.keep(known, row.time, values, `sandlarder/v1/${site}/probes/${probe}/readings`, now);
      }
      const last = rows.at(-1);
      if (last) station.archive.apart.forget(key, last.time);
      return true;
    }
    return false;
  });
}
