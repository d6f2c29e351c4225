/** Forwarding to the long archive in a running service: what it is given, what is said of how it goes. */
import type { Archive, Database } from '../archive/index.js';
import {
  Forwarder,
  type InfluxAddress,
  InfluxConnection,
  InfluxReader,
  type Refused,
} from '../archive/influx/index.js';
import { formatTime, HOUR_ms, MINUTE_ms } from '../core/model/time.js';
import type { LongArchiveHealth, Metrics } from '../http/index.js';
import type { Log } from '../log.js';

/** From then on readings that wait are told as a problem, ms: a server that restarts is none. Judgement. */
const OLD_ms = 15 * MINUTE_ms;

/** So long readings that were refused are told as a problem, ms; their count stays. Judgement. */
const REFUSED_TOLD_ms = 24 * HOUR_ms;

/** Of a question that somebody waits for, ms: then what is kept by hours is shown instead. */
const ASKED_ms = 10_000;

export interface LongArchiveParts {
  readonly address: InfluxAddress;
  readonly database: Database;
  readonly archive: Archive;
  readonly metrics: Pick<Metrics, 'forwarded' | 'forwardRefused' | 'forwardFailed' | 'setAside'>;
  readonly log: Log;
  readonly after: (delay_ms: number, call: () => void) => () => void;
  /** Wall clock, ms. */
  readonly now: () => number;
}

/** Why a reading is in quarantine. */
export const REFUSED = 'archive-refused';

export class LongArchive {
  readonly connection: InfluxConnection;
  readonly reader: InfluxReader;
  readonly #asking: InfluxConnection;
  readonly #forwarder: Forwarder;
  readonly #now: () => number;

  /** Begins at once. */
  constructor({ address, database, archive, metrics, log, after, now }: LongArchiveParts) {
    this.#now = now;
    this.connection = new InfluxConnection(address);
    this.#asking = new InfluxConnection(address, ASKED_ms);
    this.reader = new InfluxReader(this.#asking);
    this.#forwarder = new Forwarder({
      ...{ spool: archive.spool, after, now },
      nameOf: (key) => archive.keys.nameOf(key),
      write: (lines) => this.connection.write(lines),
      inTransaction: (work) => database.transaction(work).immediate(),
      setAside: (refused) => {
        setAside(archive, refused, now());
      },
      log: (line, kind) => log(line, kind),
      onForwarded: (readings, refused) => {
        metrics.forwarded.inc(readings);
        metrics.forwardRefused.inc(refused);
        if (refused > 0) metrics.setAside.inc({ reason: REFUSED }, refused);
      },
      onFailed: () => metrics.forwardFailed.inc(),
    });
  }

  health(): LongArchiveHealth {
    const { waiting, oldestAt, refused, lastError } = this.#forwarder.state();
    return { address: this.connection.shown, waiting, oldestAt, refused, lastError };
  }

  /** In words: what is wrong with it. */
  problems(): string[] {
    const { waiting, oldestAt, refused, refusedAt, trouble } = this.#forwarder.state();
    const age_ms = oldestAt === null ? 0 : this.#now() - oldestAt;
    const since = oldestAt === null ? '' : ` since ${formatTime(oldestAt)}`;
    const why = trouble === null ? 'it is slower than what comes in' : trouble.reason;
    const isTold = age_ms >= OLD_ms || trouble?.standing === true;
    const isRefusing = refusedAt !== null && this.#now() - refusedAt < REFUSED_TOLD_ms;
    return [
      ...(isTold ? [`${waiting} readings wait for the long archive${since}: ${why}`] : []),
      ...(isRefusing ? [`the long archive refused ${refused} readings: see /api/quarantine`] : []),
    ];
  }

  /** Ends what is on its way: it stays noted, and is sent again at the next start. */
  async close(): Promise<void> {
    this.#asking.close();
    this.connection.close();
    await this.#forwarder.close();
  }
}

function setAside({ keys, quarantine }: Archive, { reading, reason }: Refused, at: number): void {
  const [, key, time, temperature, humidity, battery, charge] = reading;
  const { site, probe } = keys.nameOf(key);
  const sample = { time: formatTime(time), temperature, humidity, battery, charge };
  const topic = `sandlarder/v1/${site}/probes/${probe}/readings`;
  const detail = `expected that the long archive takes it, got: ${reason}`;
  quarantine.add(REFUSED, topic, detail, Buffer.from(JSON.stringify(sample)), at);
}
