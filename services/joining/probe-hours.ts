/** Corrected means of whole hours of a probe, from readings at rest. */
import type { ProbeHour } from '../core/keeping/index.js';
import { HOUR_ms, hourOf } from '../core/model/time.js';
import type { Sample } from '../core/watch/watch.js';
import type { KnownProbe, Stay } from './directory.js';
import type { Station } from './station.js';

/** What a sensor in sand or shade can show; anything else is a code. */
const USABLE = { temperature: [-40, 80], humidity: [0, 120] } as const;

/** Flags of one span that are read at the most: both quantities of a reading every half minute for a month. */
const MOST_FLAGS = 200_000;

/** Whole hours, `from <= time < to`, ms. */
export interface HourSpan {
  readonly from: number;
  readonly to: number;
}

interface Sums {
  temperature: number;
  temperatures: number;
  humidity: number;
  humidities: number;
}

/**
 * What the probe measured during its stays, without what the bed's watch does not use; in order of time.
 *
 * @param bed whose watch says which values are not used
 */
export function probeHours(
  station: Station,
  bed: string,
  probe: KnownProbe,
  stays: readonly Stay[],
  { from, to }: HourSpan,
): ProbeHour[] {
  const flags = station.archive.flags.read(bed, probe.key, { from, to }, MOST_FLAGS);
  const flagged = new Set(flags.map(({ at, quantity }) => `${quantity} ${at}`));
  const hours = new Map<number, Sums>();
  for (const sample of station.archive.readings.samples(probe.key, from, to)) {
    if (!stays.some((stay) => sample.at >= stay.from && sample.at < stay.to)) continue;
    const hour = hourOf(sample.at);
    const sums = hours.get(hour) ?? { temperature: 0, temperatures: 0, humidity: 0, humidities: 0 };
    addTo(sums, station, probe, sample, flagged);
    hours.set(hour, sums);
  }
  return [...hours].map(([hour, sums]) => hourFrom(hour, sums)).sort((one, other) => one.hour - other.hour);
}

function addTo(
  sums: Sums,
  { calibrations }: Station,
  probe: KnownProbe,
  { at, temperature, humidity }: Sample,
  flagged: ReadonlySet<string>,
): void {
  const isUsable = (quantity: keyof typeof USABLE, raw: number): boolean =>
    raw >= USABLE[quantity][0] && raw <= USABLE[quantity][1] && !flagged.has(`${quantity} ${at}`);
  let warmth: number | undefined;
  if (temperature !== undefined && isUsable('temperature', temperature)) {
    warmth = calibrations.correct(probe, 'temperature', at, temperature).value;
    sums.temperature += warmth;
    sums.temperatures += 1;
  }
  if (humidity !== undefined && isUsable('humidity', humidity)) {
    sums.humidity += calibrations.correct(probe, 'humidity', at, humidity, warmth).value;
    sums.humidities += 1;
  }
}

const hourFrom = (hour: number, { temperature, temperatures, humidity, humidities }: Sums): ProbeHour => ({
  hour,
  ...(temperatures > 0 && { temperature_C: temperature / temperatures }),
  ...(humidities > 0 && { humidity_RH: humidity / humidities }),
});

/** Hours of several probes in one place: their mean where more than one measured. */
export function meanHours(probes: readonly (readonly ProbeHour[])[]): ProbeHour[] {
  const byHour = new Map<number, ProbeHour[]>();
  for (const hour of probes.flat()) byHour.set(hour.hour, [...(byHour.get(hour.hour) ?? []), hour]);
  return [...byHour.entries()]
    .sort(([one], [other]) => one - other)
    .map(([hour, all]) => ({
      hour,
      temperature_C: meanOf(all.map(({ temperature_C }) => temperature_C)),
      humidity_RH: meanOf(all.map(({ humidity_RH }) => humidity_RH)),
    }));
}

/** Of those that are known; undefined where none is. */
export function meanOf(values: readonly (number | undefined)[]): number | undefined {
  const known = values.filter((value) => value !== undefined);
  return known.length === 0 ? undefined : known.reduce((sum, value) => sum + value, 0) / known.length;
}

/** The span of whole hours that ends with the last one that is over by `end`, ms. */
export const wholeHours = (end: number, hours: number): HourSpan => {
  const to = hourOf(end);
  return { from: to - hours * HOUR_ms, to };
};
