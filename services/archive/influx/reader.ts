/** Reads the long archive: rows in pages, so that memory does not grow with the span. */
import { escape as escaped } from 'influx';
import { EARLIEST_TIME_ms, LATEST_TIME_ms } from '../../core/model/time.js';
import type { Stretch } from '../history/history.js';
import type { StoredReading } from '../reading-store.js';
import type { Series } from '../series.js';
import { ALL_USED, Thinning, type Unused } from '../series-parts.js';
import type { InfluxConnection } from './connection.js';
import { FIELD, MEASUREMENT } from './lines.js';

/** Rows of one answer: about 700 KB of JSON. */
const PAGE_rows = 10_000;

const COLUMNS = [FIELD.temperature, FIELD.humidity, FIELD.battery, FIELD.charge].map((name) => `"${name}"`);

type Row = [
  time: number,
  temperature: number | null,
  humidity: number | null,
  battery: number | null,
  charge: number | null,
];

export class InfluxReader {
  readonly #connection: Pick<InfluxConnection, 'query'>;

  constructor(connection: Pick<InfluxConnection, 'query'>) {
    this.#connection = connection;
  }

  /** Rows of a probe in order of time, page by page. */
  async *pages(site: string, probe: string, { from, to }: Stretch): AsyncGenerator<StoredReading[]> {
    let next = from;
    for (;;) {
      const rows = await this.#rows(site, probe, { from: next, to }, PAGE_rows);
      if (rows.length > 0) yield rows.map(readingOf);
      if (rows.length < PAGE_rows) return;
      next = (rows.at(-1)?.[0] ?? to) + 1;
    }
  }

  /** From the first row of a probe to just after its last; undefined where it has none. */
  async span(site: string, probe: string): Promise<Stretch | undefined> {
    const ever = { from: EARLIEST_TIME_ms, to: LATEST_TIME_ms };
    const [first] = await this.#rows(site, probe, ever, 1);
    const [last] = await this.#rows(site, probe, ever, 1, 'DESC');
    return first && last && { from: first[0], to: last[0] + 1 };
  }

  /** Rows for a plot, thinned as those of the service's own database are. */
  async series(
    site: string,
    probe: string,
    stretch: Stretch,
    points: number,
    unused: Unused = ALL_USED,
  ): Promise<Series> {
    const first = await this.#rows(site, probe, stretch, points + 1);
    if (first.length <= points)
      return {
        rows: first.map(([time, temperature, humidity]) => ({ time, temperature, humidity })),
        thinned: false,
      };
    const thinning = new Thinning(await this.#counts(site, probe, stretch), stretch, points, unused);
    for await (const page of this.pages(site, probe, stretch)) for (const row of page) thinning.take(row);
    return { rows: thinning.rows(), thinned: true };
  }

  async #rows(
    site: string,
    probe: string,
    stretch: Stretch,
    most: number,
    order: 'ASC' | 'DESC' = 'ASC',
  ): Promise<readonly Row[]> {
    const [table] = await this.#connection.query(
      `SELECT ${COLUMNS.join(', ')} ${fromWhere(site, probe, stretch)} ORDER BY time ${order} LIMIT ${most}`,
    );
    return (table?.values ?? []) as readonly Row[];
  }

  async #counts(site: string, probe: string, stretch: Stretch) {
    const [table] = await this.#connection.query(
      `SELECT count("${FIELD.temperature}"), count("${FIELD.humidity}") ${fromWhere(site, probe, stretch)}`,
    );
    const [, temperatures, humidities] = (table?.values?.[0] ?? []) as number[];
    return { temperatures: temperatures ?? 0, humidities: humidities ?? 0 };
  }
}

/** The part of a question that says whose readings and when. */
export const fromWhere = (site: string, probe: string, { from, to }: Stretch): string =>
  `FROM "${MEASUREMENT}" WHERE "site" = ${escaped.stringLit(site)} AND "probe" = ${escaped.stringLit(probe)} AND time >= ${from}ms AND time < ${to}ms`;

const readingOf = ([time, temperature, humidity, battery, charge]: Row): StoredReading => ({
  ...{ time, temperature, humidity, battery, charge },
});
