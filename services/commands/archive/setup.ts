/** `sandlarder archive setup`. */

import { InfluxConnection, QueryRefused } from '../../archive/influx/connection.js';
import { failureOf } from '../../archive/influx/failure.js';
import { setUp } from '../../archive/influx/setup.js';
import { SandlarderError } from '../../core/errors.js';
import { readInfluxAddress } from '../../settings.js';
import { readWhole } from '../numbers.js';
import { onOutput } from '../say.js';

interface SetupFlags {
  readonly influx: string;
  readonly keep?: string;
  readonly json?: boolean;
}

/** A server keeps readings by shards of four weeks here, and none shorter than one shard. */
const LEAST_days = 28;

/** A hundred years. */
const MOST_days = 36_500;

/** @throws SandlarderError WRONG_USAGE, CONFLICT, STORE_UNAVAILABLE where the server cannot be asked or refuses */
export async function setup({ influx, keep, json }: SetupFlags): Promise<void> {
  const keep_days = keep === undefined ? undefined : readWhole('--keep', keep, LEAST_days, MOST_days);
  const lines = await withInflux('--influx', influx, (connection) => setUp(connection, { keep_days }));
  if (json) onOutput(JSON.stringify({ done: lines }));
  else for (const line of lines) onOutput(line);
}

/** Runs the work with a connection, and says its trouble in one sentence. */
export async function withInflux<Result>(
  flag: string,
  url: string,
  work: (connection: InfluxConnection) => Promise<Result>,
): Promise<Result> {
  const connection = new InfluxConnection(readInfluxAddress(flag, url, process.env));
  try {
    return await work(connection);
  } catch (error) {
    if (error instanceof SandlarderError) throw error;
    throw new SandlarderError('STORE_UNAVAILABLE', `${connection.shown}: ${troubleOf(error)}`, {
      cause: error,
    });
  } finally {
    connection.close();
  }
}

/** What a server answered stands as it is; where nothing answered, what should have is named. */
function troubleOf(error: unknown): string {
  if (/database not found/.test((error as Error).message))
    return `${(error as Error).message}; "sandlarder archive setup" makes it`;
  if (error instanceof QueryRefused) return error.message;
  const { standing, reason } = failureOf(error);
  return standing || reason.startsWith('expected ')
    ? reason
    : `expected an InfluxDB that answers, got ${reason}`;
}
