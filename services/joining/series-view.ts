/** Series of a bed for a plot: measured beside expected, by probe. */
import type { Archive } from '../archive/index.js';
import { HOUR_ms, hourOf } from '../core/model/time.js';
import type { ProbeSeries, SeriesQuery } from '../http/index.js';
import { type Calibrations, type CorrectedValue, toMillionth } from './calibrations.js';
import { covers, type KnownBed, type KnownProbe, type Stay, staysInBed } from './directory.js';

export function readSeries(
  archive: Archive,
  calibrations: Calibrations,
  known: KnownBed,
  query: SeriesQuery,
): ProbeSeries[] {
  return known.probes.flatMap((probe) =>
    staysInBed(probe, known.bed.id).flatMap((stay) =>
      staySeries(archive, calibrations, known.bed.id, probe, stay, query),
    ),
  );
}

function staySeries(
  archive: Archive,
  calibrations: Calibrations,
  bed: string,
  probe: KnownProbe,
  stay: Stay,
  query: SeriesQuery,
): ProbeSeries[] {
  const from = Math.max(query.from, stay.from);
  const to = Math.min(query.to, stay.to);
  if (!stay.placement || !(from < to)) return [];
  const rows = archive.series.read(probe.key, from, to, query.points);
  if (rows.length === 0) return [];
  const judged = new Map(
    archive.judged
      .read(probe.key, hourOf(from), hourOf(to) + HOUR_ms)
      .filter(({ hour }) => covers([stay], hour))
      .map((hour) => [hour.hour, hour]),
  );
  const hours = rows.map((row) => judged.get(hourOf(row.time)));
  const temperature = rows.map(({ time, temperature: raw }) =>
    raw === null ? null : calibrations.correct(probe, 'temperature', time, raw),
  );
  const humidity = rows.map(({ time, humidity: raw }, at) =>
    raw === null ? null : calibrations.correct(probe, 'humidity', time, raw, temperature[at]?.value),
  );
  const { x, y, depth } = stay.placement;
  return [
    {
      ...{ probe: probe.probe.id, x, y, depth },
      time: rows.map((row) => row.time),
      temperature_C: temperature.map(correctedOf),
      temperatureUncertainty_C: temperature.map(uncertaintyOf),
      temperatureDoubt: temperature.map(doubtOf),
      humidity_RH: humidity.map(correctedOf),
      humidityUncertainty_RH: humidity.map(uncertaintyOf),
      humidityDoubt: humidity.map(doubtOf),
      expected_C: hours.map((hour) => hour?.expected ?? null),
      band_C: hours.map((hour) => hour?.band ?? null),
      flagged: archive.flags.read(bed, probe.key, { from, to }, query.points),
    },
  ];
}

const correctedOf = (corrected: CorrectedValue | null): number | null =>
  corrected && toMillionth(corrected.value);
const doubtOf = (corrected: CorrectedValue | null): CorrectedValue['doubt'] => corrected?.doubt ?? null;
const uncertaintyOf = (corrected: CorrectedValue | null): number | null => {
  const uncertainty = corrected?.uncertainty ?? null;
  return uncertainty === null ? null : toMillionth(uncertainty);
};
