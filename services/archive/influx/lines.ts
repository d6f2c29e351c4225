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
export const FIRST_VALUE = 4;

/** The line of one reading without its end; empty where nothing is kept of it. Every value is a float. */
export function lineOf(reading: SpooledReading): string {
  let fields = '';
  for (let at = 0; at < FIELDS.length; at += 1) {
    const value = reading[FIRST_VALUE + at];
    if (value !== null) fields += `${fields === '' ? ' ' : ','}${FIELDS[at]}=${value}`;
  }
  return fields === '' ? '' : `${seriesOf(reading[1], reading[2])}${fields} ${reading[3]}`;
}

/** Names of series that were escaped already, so many at the most. */
const MOST_SERIES = 10_000;

const series = new Map<string, string>();

function seriesOf(site: string, probe: string): string {
  const name = `${site}/${probe}`;
  const known = series.get(name);
  if (known !== undefined) return known;
  if (series.size >= MOST_SERIES) series.clear();
  const made = `${MEASUREMENT},probe=${escaped.tag(probe)},site=${escaped.tag(site)}`;
  series.set(name, made);
  return made;
}
