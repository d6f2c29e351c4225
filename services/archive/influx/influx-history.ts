/** History in an InfluxDB. */
import type { History, ProbeName, Stretch } from '../history/history.js';
import type { StoredReading } from '../reading-store.js';
import type { InfluxConnection } from './connection.js';
import { BATCH_readings } from './forwarder.js';
import { Lines, MEASUREMENT } from './lines.js';
import { InfluxReader } from './reader.js';
import { send } from './sending.js';
import type { SpooledReading } from './spool-store.js';

/** As the server names a series whose tags are ids of this program. */
const SERIES = /^reading,probe=([a-z0-9-]+),site=([a-z0-9-]+)$/;

export class InfluxHistory implements History {
  readonly #connection: InfluxConnection;
  readonly #reader: InfluxReader;

  constructor(connection: InfluxConnection) {
    this.#connection = connection;
    this.#reader = new InfluxReader(connection);
  }

  async probes(): Promise<readonly ProbeName[]> {
    const [table] = await this.#connection.query(`SHOW SERIES FROM "${MEASUREMENT}"`);
    return (table?.values ?? [])
      .flatMap(([key]) => {
        const [, probe, site] = SERIES.exec(String(key)) ?? [];
        return site === undefined || probe === undefined ? [] : [{ site, probe }];
      })
      .sort((one, other) => (`${one.site}/${one.probe}` < `${other.site}/${other.probe}` ? -1 : 1));
  }

  span({ site, probe }: ProbeName): Promise<Stretch | undefined> {
    return this.#reader.span(site, probe);
  }

  since(): number {
    return 0;
  }

  pages({ site, probe }: ProbeName, stretch: Stretch): AsyncGenerator<StoredReading[]> {
    return this.#reader.pages(site, probe, stretch);
  }

  /** A reading that the server will never take is missed when what was copied is looked at. */
  async put(name: ProbeName, readings: readonly StoredReading[]): Promise<void> {
    const lines = new Lines(() => name);
    for (let from = 0; from < readings.length; from += BATCH_readings)
      await send(
        (text) => this.#connection.write(text),
        (some) => lines.of(some),
        readings.slice(from, from + BATCH_readings).map(spooled),
      );
  }
}

const spooled = ({ time, temperature, humidity, battery, charge }: StoredReading): SpooledReading => [
  ...([0, 0, time, temperature, humidity, battery, charge] as const),
];
