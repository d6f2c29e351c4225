/** Both archives, SQLite and a real InfluxDB, behind one face; and readings to put in them. */
import type { History, ProbeName } from '../../services/archive/history/history.js';
import { SqliteHistory } from '../../services/archive/history/sqlite-history.js';
import type { Series, Unused } from '../../services/archive/index.js';
import { parseInfluxUrl } from '../../services/archive/influx/address.js';
import { InfluxConnection, InfluxReader } from '../../services/archive/influx/index.js';
import { InfluxHistory } from '../../services/archive/influx/influx-history.js';
import { setUp } from '../../services/archive/influx/setup.js';
import type { StoredReading } from '../../services/archive/reading-store.js';
import { DAY_ms, MINUTE_ms } from '../../services/core/model/time.js';
import type { Influxd } from './influxd.js';
import { openStores } from './open.js';
import { seeded } from './season.js';

export const T = Date.UTC(2026, 5, 1);
export const P01: ProbeName = { site: 'ridge-station', probe: 'p01' };
export const P02: ProbeName = { site: 'ridge-station', probe: 'p02' };

let databases = 0;

export interface Opened {
  readonly history: History;
  series(name: ProbeName, from: number, to: number, points: number, unused?: Unused): Promise<Series>;
}

/** A data directory of its own. */
export function sqlite(): Opened & { readonly directory: string } {
  const { directory, database, archive } = openStores();
  return {
    directory,
    history: new SqliteHistory(database, archive),
    series: async ({ site, probe }, from, to, points, unused) =>
      archive.series.read(archive.keys.keyOf(site, probe), from, to, points, unused),
  };
}

/** A database of its own in a server, set up. */
export async function influx(
  influxd: Influxd,
): Promise<Opened & { readonly url: string; readonly connection: InfluxConnection }> {
  databases += 1;
  const url = `${influxd.url}/history_${databases}`;
  const connection = new InfluxConnection(parseInfluxUrl(url));
  await setUp(connection, {});
  const reader = new InfluxReader(connection);
  return {
    ...{ url, connection, history: new InfluxHistory(connection) },
    series: ({ site, probe }, from, to, points, unused) =>
      reader.series(site, probe, { from, to }, points, unused),
  };
}

export const reading = (minute: number, values: Partial<StoredReading>): StoredReading => ({
  ...{ time: T + minute * MINUTE_ms, temperature: null, humidity: null, battery: null, charge: null },
  ...values,
});

export async function all(
  history: History,
  name: ProbeName,
  from = T,
  to = T + 100 * DAY_ms,
): Promise<StoredReading[]> {
  const rows: StoredReading[] = [];
  for await (const page of history.pages(name, { from, to })) rows.push(...page);
  return rows;
}

/** Warm and cold, dry and moist, with gaps of each; what only the battery says is a reading too. */
export function season(minutes: number, seed = 1): StoredReading[] {
  const random = seeded(seed);
  return Array.from({ length: minutes }, (_, minute) => {
    const battery = minute % 60 === 0 ? 3 + random() / 10 : null;
    const temperature = random() < 0.05 ? null : 20 + 5 * Math.sin(minute / 200) + random();
    const humidity = random() < 0.5 ? null : 80 + 10 * Math.cos(minute / 300) + random();
    return reading(minute, { temperature, humidity, battery });
  }).filter(({ temperature, humidity, battery }) =>
    [temperature, humidity, battery].some((value) => value !== null),
  );
}
