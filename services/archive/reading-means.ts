/** Mean raw temperatures by days and by hours, over what is here one by one and what is here by hours. */
import { DAY_ms, HOUR_ms } from '../core/model/time.js';
import type { Database } from './database.js';

interface Span {
  readonly from: number;
  readonly to: number;
}

/** °C. */
interface Range {
  readonly least: number;
  readonly greatest: number;
}

const IN_RANGE =
  'probe = @probe AND time >= @from AND time < @to AND temperature >= @least AND temperature <= @greatest';

/** Sums of hours that lie in the span as a whole. */
const OF_HOURS = `sum(temperature_mean * temperature_count) AS total, sum(temperature_count) AS count FROM reading_hour
  WHERE probe = @probe AND hour >= @from AND hour <= @to - ${HOUR_ms}
  AND temperature_mean >= @least AND temperature_mean <= @greatest`;

export class ReadingMeans {
  readonly #daily;
  readonly #hourly;

  constructor(database: Database) {
    this.#daily = database.prepare(
      `SELECT at, sum(total) / sum(count) AS mean FROM (
         SELECT time / ${DAY_ms} * ${DAY_ms} AS at, sum(temperature) AS total, count(*) AS count FROM reading
         WHERE ${IN_RANGE} GROUP BY 1
         UNION ALL SELECT hour / ${DAY_ms} * ${DAY_ms} AS at, ${OF_HOURS} GROUP BY 1
       ) GROUP BY 1 ORDER BY 1`,
    );
    this.#hourly = database
      .prepare(
        `SELECT at, sum(total) / sum(count) FROM (
           SELECT time / ${HOUR_ms} * ${HOUR_ms} AS at, sum(temperature) AS total, count(*) AS count FROM reading
           WHERE ${IN_RANGE} AND NOT EXISTS (SELECT 1 FROM flag WHERE flag.probe = reading.probe
             AND flag.time = reading.time AND quantity = 'temperature' AND bed = @bed) GROUP BY 1
           UNION ALL SELECT hour AS at, ${OF_HOURS} GROUP BY 1
         ) GROUP BY 1 ORDER BY 1`,
      )
      .raw();
  }

  /** Of days in UTC within [from, to), °C, of values within the range; in order of time. */
  daily(probe: number, { from, to }: Span, { least, greatest }: Range): { at: number; mean: number }[] {
    return this.#daily.all({ probe, from, to, least, greatest }) as { at: number; mean: number }[];
  }

  /**
   * Of hours within [from, to), °C, of values within the range that the bed's watch has not flagged; in order of time. Of
   * an hour that is not here one by one, what any watch has flagged is left out.
   */
  hourly(
    probe: number,
    bed: string,
    { from, to }: Span,
    { least, greatest }: Range,
  ): [hour: number, mean: number][] {
    const rows = this.#hourly.all({ probe, bed, from, to, least, greatest });
    return rows as [hour: number, mean: number][];
  }
}
