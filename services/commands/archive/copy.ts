/** `sandlarder archive copy`. */

import { type Copied, copyHistory } from '../../archive/history/copy.js';
import type { History } from '../../archive/history/history.js';
import { SqliteHistory } from '../../archive/history/sqlite-history.js';
import {
  ARCHIVE_SCHEMA,
  createArchive,
  lockDirectory,
  openDatabase,
  openForReading,
} from '../../archive/index.js';
import { InfluxHistory } from '../../archive/influx/influx-history.js';
import { SandlarderError } from '../../core/errors.js';
import { formatTime } from '../../core/model/time.js';
import { REGISTRY_SCHEMA } from '../../registry/index.js';
import { createProgress } from '../progress.js';
import { onOutput } from '../say.js';
import { withInflux } from './setup.js';

interface CopyFlags {
  readonly from: string;
  readonly to: string;
  readonly json?: boolean;
}

/** Differences that are told one by one. */
const MOST_TOLD = 20;

/** @throws SandlarderError WRONG_USAGE, STORE_UNAVAILABLE; CONFLICT where a day is not the same on both sides */
export async function copy({ from, to, json }: CopyFlags): Promise<void> {
  if (isUrl(from) === isUrl(to))
    throw new SandlarderError(
      'WRONG_USAGE',
      `--from and --to: expected a data directory and an InfluxDB such as http://HOST:8086/DATABASE, got two of a kind`,
    );
  const progress = createProgress(process.stderr, Date.now);
  const run = (source: History, target: History): Promise<Copied> =>
    copyHistory(source, target, ({ site, probe }, day) =>
      progress.show(`${site}/${probe} ${formatTime(day).slice(0, 10)}`),
    );
  const copied = isUrl(from)
    ? await withInflux('--from', from, (connection) => toDirectory(to, connection, run))
    : await withInflux('--to', to, (connection) => fromDirectory(from, connection, run));
  progress.clear();
  tell(copied, json === true);
}

const isUrl = (text: string): boolean => /^https?:\/\//i.test(text);

type Connection = ConstructorParameters<typeof InfluxHistory>[0];
type Run = (source: History, target: History) => Promise<Copied>;

/** A service may run on the directory: it is only looked at. */
async function fromDirectory(directory: string, connection: Connection, run: Run): Promise<Copied> {
  const database = openForReading(directory, [ARCHIVE_SCHEMA]);
  try {
    return await run(new SqliteHistory(database, createArchive(database)), new InfluxHistory(connection));
  } finally {
    database.close();
  }
}

/** No service may run: what is copied is history, and is not judged. */
async function toDirectory(directory: string, connection: Connection, run: Run): Promise<Copied> {
  const release = lockDirectory(directory);
  try {
    const database = openDatabase(directory, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
    try {
      return await run(new InfluxHistory(connection), new SqliteHistory(database, createArchive(database)));
    } finally {
      database.close();
    }
  } finally {
    release();
  }
}

function tell(copied: Copied, json: boolean): void {
  const { probes, days, daysBefore, values, added, notes, differences } = copied;
  if (json) onOutput(JSON.stringify(copied));
  else {
    onOutput(
      `${probes} probes: ${days} days copied with ${values} values, ${daysBefore} days were there already, ${differences.length} days differ; ${added} values were not there before`,
    );
    for (const note of notes) onOutput(note);
    for (const { site, probe, day, from, to } of differences.slice(0, MOST_TOLD))
      onOutput(
        `${site}/${probe} ${formatTime(day).slice(0, 10)}: expected ${from.values} values, checksum ${from.checksum.slice(0, 12)}, got ${to.values}, ${to.checksum.slice(0, 12)}`,
      );
  }
  if (differences.length > 0)
    throw new SandlarderError(
      'CONFLICT',
      `${differences.length} days of probes are not the same on both sides: other values stood there before, or were refused`,
    );
}
