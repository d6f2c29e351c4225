/** Series of a bed for a plot: measured beside expected, by probe. */
import type { Archive } from '../archive/index.js';
import { SandlarderError } from '../core/errors.js';
import { HOUR_ms, hourOf } from '../core/model/time.js';
import type {
  HourSeries,
  MeasuredSeries,
  OlderReadings,
  ProbeSeries,
  SeriesQuery,
  ShadeSeries,
} from '../http/index.js';
import { type Calibrations, type CorrectedValue, toMillionth } from './calibrations.js';
import { type KnownBed, type KnownProbe, type Stay, staysInBed, staysInShade } from './directory.js';
import { joinedRows, unusedOf } from './older-series.js';

/** Flags of one span that are read at the most: both quantities of a reading every half minute for a month. */
const MOST_FLAGS = 200_000;

export interface SeriesParts {
  readonly archive: Archive;
  readonly calibrations: Calibrations;
  readonly known: KnownBed;
  readonly query: SeriesQuery;
  /** What the long archive gave. */
  readonly older?: OlderReadings | undefined;
}

/** @throws SandlarderError NOT_FOUND for a probe that never stood in the bed or in the shade of its site */
export function readSeries(parts: SeriesParts): ProbeSeries[] {
  const { known, query } = parts;
  requireProbes(known, query.probes ?? []);
  return known.probes
    .filter(({ probe }) => query.probes?.includes(probe.id) ?? true)
    .flatMap((probe) => staysInBed(probe, known.bed.id).flatMap((stay) => staySeries(parts, probe, stay)));
}

/** What the probes in the shade outside measured: those that are named, or all where no probe is. */
export function readShadeSeries(parts: SeriesParts): ShadeSeries[] {
  const { known, query } = parts;
  requireProbes(known, query.probes ?? []);
  return known.shade
    .filter(({ probe }) => query.probes?.includes(probe.id) ?? true)
    .flatMap((probe) =>
      staysInShade(probe).flatMap((stay) => {
        const measured = measuredSeries(parts, probe, spanOf(stay, query));
        return measured ? [{ probe: probe.probe.id, ...measured }] : [];
      }),
    );
}

function requireProbes({ bed, probes, shade }: KnownBed, asked: readonly string[]): void {
  const there = new Set([...probes, ...shade].map(({ probe }) => probe.id));
  const unknown = asked.find((id) => !there.has(id));
  if (unknown !== undefined)
    throw new SandlarderError(
      'NOT_FOUND',
      `probes: expected probes of bed "${bed.id}" or of its shade, got "${unknown}"`,
    );
}

interface Span {
  readonly from: number;
  readonly to: number;
}

const spanOf = (stay: Stay, { from, to }: SeriesQuery): Span => ({
  from: Math.max(from, stay.from),
  to: Math.min(to, stay.to),
});

function staySeries(parts: SeriesParts, probe: KnownProbe, stay: Stay): ProbeSeries[] {
  const span = spanOf(stay, parts.query);
  const measured = stay.placement && measuredSeries(parts, probe, span);
  if (!stay.placement || !measured) return [];
  const { judgedSeries } = parts.archive;
  const judged = {
    first: Math.max(hourOf(span.from), stay.from),
    last: Math.min(hourOf(span.to), stay.to - HOUR_ms),
  };
  const hours = judgedSeries.at(probe.key, judged, measured.time);
  const { x, y, depth } = stay.placement;
  return [
    {
      ...{ probe: probe.probe.id, x, y, depth, ...measured },
      expected_C: hours.map((hour) => hour?.expected ?? null),
      band_C: hours.map((hour) => hour?.band ?? null),
      hours: hourColumns(judgedSeries.read(probe.key, judged, span, parts.query.points)),
    },
  ];
}

/** Undefined where nothing was measured. */
function measuredSeries(
  { archive, calibrations, known, query: { points }, older }: SeriesParts,
  probe: KnownProbe,
  span: Span,
): MeasuredSeries | undefined {
  if (!(span.from < span.to)) return undefined;
  const flags = archive.flags.shown(known.bed.id, probe.key, span, MOST_FLAGS);
  const { rows, thinned, readFrom } = joinedRows(
    archive,
    { key: probe.key, span, points, unused: unusedOf(flags) },
    older?.probes.get(probe.probe.id),
  );
  if (rows.length === 0 && flags.length === 0) return undefined;
  const temperature = rows.map(({ time, temperature: raw }) =>
    raw === null ? null : calibrations.correct(probe, 'temperature', time, raw),
  );
  const humidity = rows.map(({ time, humidity: raw }, at) =>
    raw === null ? null : calibrations.correct(probe, 'humidity', time, raw, temperature[at]?.value),
  );
  return {
    time: rows.map((row) => row.time),
    temperature_C: temperature.map(correctedOf),
    temperatureUncertainty_C: temperature.map(uncertaintyOf),
    temperatureDoubt: temperature.map(doubtOf),
    humidity_RH: humidity.map(correctedOf),
    humidityUncertainty_RH: humidity.map(uncertaintyOf),
    humidityDoubt: humidity.map(doubtOf),
    // Both quantities of each row that is given may be flagged.
    flagged: flags.slice(thinned ? -points : -2 * points),
    thinned,
    readFrom,
  };
}

const correctedOf = (corrected: CorrectedValue | null): number | null =>
  corrected && toMillionth(corrected.value);
const doubtOf = (corrected: CorrectedValue | null): CorrectedValue['doubt'] => corrected?.doubt ?? null;
const uncertaintyOf = (corrected: CorrectedValue | null): number | null => {
  const uncertainty = corrected?.uncertainty ?? null;
  return uncertainty === null ? null : toMillionth(uncertainty);
};

interface JudgedHour {
  readonly hour: number;
  readonly expected: number | null;
  readonly band: number | null;
  readonly excess: number | null;
}

const hourColumns = (hours: readonly JudgedHour[]): HourSeries => ({
  time: hours.map(({ hour }) => hour),
  expected_C: hours.map(({ expected }) => expected),
  band_C: hours.map(({ band }) => band),
  excess_C: hours.map(({ excess }) => excess),
});
