/**
 * The shape of readings in the long archive: measurement `reading`, tags `site` and `probe`, one field for each quantity,
 * in the unit that its name says, as it was measured.
 *
 * The bed is no tag. Where a probe lay is corrected afterwards, and a point with another tag is another point: the
 * reading would be there twice. Which bed it was follows from the placement at the reading's time.
 */
import { escape as escaped } from 'influx';
import type { Quantity } from '../../core/model/quantity.js';
import { SPOOLED_QUANTITIES, type SpooledReading } from './spool-store.js';

export const MEASUREMENT = 'reading';

export const FIELD: Readonly<Record<Quantity, string>> = {
  temperature: 'temperature_C',
  humidity: 'humidity_RH',
  battery: 'battery_V',
  charge: 'charge_EL',
};

/** Names of the fields in the order in which a spooled reading holds its values. */
export const FIELDS: readonly string[] = SPOOLED_QUANTITIES.map((quantity) => FIELD[quantity]);

/** Where the values begin in a spooled reading. */
export const FIRST_VALUE = 3;

export type NameOf = (key: number) => { readonly site: string; readonly probe: string };

/** Makes lines of the line protocol. */
export class Lines {
  readonly #nameOf: NameOf;
  /** By key of the probe: measurement and tags. */
  readonly #series: string[] = [];

  constructor(nameOf: NameOf) {
    this.#nameOf = nameOf;
  }

  /** One for each reading; none where nothing is kept of it. Every value is a float. */
  of(readings: readonly SpooledReading[]): string {
    let lines = '';
    for (const reading of readings) {
      let fields = '';
      for (let at = 0; at < FIELDS.length; at += 1) {
        const value = reading[FIRST_VALUE + at];
        if (value !== null) fields += `${fields === '' ? ' ' : ','}${FIELDS[at]}=${value}`;
      }
      if (fields !== '') lines += `${lines === '' ? '' : '\n'}${this.#of(reading[1])}${fields} ${reading[2]}`;
    }
    return lines;
  }

  #of(key: number): string {
    const known = this.#series[key];
    if (known !== undefined) return known;
    const { site, probe } = this.#nameOf(key);
    const made = `${MEASUREMENT},probe=${escaped.tag(probe)},site=${escaped.tag(site)}`;
    this.#series[key] = made;
    return made;
  }
}
