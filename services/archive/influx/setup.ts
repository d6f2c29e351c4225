/**
 * Makes in an InfluxDB what the long archive needs, and leaves alone what is there: a database, a policy that keeps
 * readings, one that keeps hours for ever, and the continuous queries that make the hours.
 */
import { SandlarderError } from '../../core/errors.js';
import { DAY_ms, HOUR_ms, MINUTE_ms } from '../../core/model/time.js';
import type { InfluxConnection, Table } from './connection.js';
import { FIELDS, MEASUREMENT } from './lines.js';

/** Of a database that is made here. One that is there keeps its own default. */
const FULL_RATE = 'full_rate';
const HOURS = 'hours';
const HOUR_MEASUREMENT = 'reading_hour';
const QUERY = 'sandlarder_hours';

/** How far back hours are made again, so that readings that come late are in them, days. Judgement. */
const LATE_days = 30;

export interface SetupWishes {
  /** Readings are kept for so many days; for ever where absent, or as long as they are. */
  readonly keep_days?: number | undefined;
}

type Connection = Pick<InfluxConnection, 'query' | 'database'>;

interface Policy {
  readonly name: string;
  /** 0 is for ever. */
  readonly keep_ms: number;
}

/**
 * @returns a line for each part: what was made, changed, or was there
 * @throws SandlarderError CONFLICT where keeping readings for a shorter time would delete some
 */
export async function setUp(connection: Connection, { keep_days }: SetupWishes): Promise<string[]> {
  const keep_ms = (keep_days ?? 0) * DAY_ms;
  const database = await ensureDatabase(connection, keep_ms);
  const policies = policiesOf(
    await connection.query(`SHOW RETENTION POLICIES ON ${name(connection.database)}`),
  );
  const full = policies.find(({ isDefault }) => isDefault);
  if (!full)
    throw new SandlarderError(
      'CONFLICT',
      `database ${connection.database}: expected a default policy, got none`,
    );
  return [
    database,
    await ensureKept(connection, full, keep_days),
    await ensureHours(connection, policies),
    await ensureQuery(connection, full.name),
  ];
}

async function ensureDatabase(connection: Connection, keep_ms: number): Promise<string> {
  const { database } = connection;
  const [table] = await connection.query('SHOW DATABASES');
  if (table?.values?.some(([known]) => known === database)) return `database ${database}: there already`;
  const duration = keep_ms === 0 ? 'INF' : durationOf(keep_ms);
  await connection.query(
    `CREATE DATABASE ${name(database)} WITH DURATION ${duration} SHARD DURATION 4w NAME ${name(FULL_RATE)}`,
    'change',
  );
  return `database ${database}: made`;
}

async function ensureKept(
  connection: Connection,
  policy: Policy,
  keep_days: number | undefined,
): Promise<string> {
  const said = `readings, policy ${policy.name}`;
  const wanted_ms = (keep_days ?? 0) * DAY_ms;
  if (keep_days === undefined || policy.keep_ms === wanted_ms)
    return `${said}: kept ${spanOf(policy.keep_ms)}, there already`;
  if (policy.keep_ms === 0 || wanted_ms < policy.keep_ms)
    throw new SandlarderError(
      'CONFLICT',
      `--keep: expected at least what ${said} keeps now, ${spanOf(policy.keep_ms)}, got ${keep_days} days: a shorter one deletes readings, and is left to you`,
    );
  await connection.query(
    `ALTER RETENTION POLICY ${name(policy.name)} ON ${name(connection.database)} DURATION ${durationOf(wanted_ms)}`,
    'change',
  );
  return `${said}: kept ${spanOf(wanted_ms)}, before ${spanOf(policy.keep_ms)}`;
}

async function ensureHours(connection: Connection, policies: readonly Policy[]): Promise<string> {
  const there = policies.find((policy) => policy.name === HOURS);
  if (there) return `hours, policy ${HOURS}: kept ${spanOf(there.keep_ms)}, there already`;
  await connection.query(
    `CREATE RETENTION POLICY ${name(HOURS)} ON ${name(connection.database)} DURATION INF REPLICATION 1 SHARD DURATION 52w`,
    'change',
  );
  return `hours, policy ${HOURS}: made, kept for ever`;
}

async function ensureQuery(connection: Connection, full: string): Promise<string> {
  const { database } = connection;
  const wanted = queryOf(database, full);
  const tables = await connection.query('SHOW CONTINUOUS QUERIES');
  const rows = tables.find((table) => table.name === database)?.values ?? [];
  const there = rows.find(([known]) => known === QUERY)?.[1];
  const said = `continuous query ${QUERY}`;
  if (there !== undefined && plain(String(there)) === plain(wanted)) return `${said}: there already`;
  if (there !== undefined)
    await connection.query(`DROP CONTINUOUS QUERY ${name(QUERY)} ON ${name(database)}`, 'change');
  await connection.query(wanted, 'change');
  return `${said}: ${there === undefined ? 'made' : 'made anew, it was another'}`;
}

/** The server gives a query back with its own use of quotes. */
const plain = (query: string): string => query.replaceAll('"', '').replace(/\s+/g, ' ').trim();

/** Least, mean and greatest of each hour and how many values they rest on, of raw values. */
function queryOf(database: string, full: string): string {
  const columns = FIELDS.flatMap((field) =>
    ['min', 'mean', 'max', 'count'].map((sum) => `${sum}(${name(field)}) AS ${name(`${field}_${sum}`)}`),
  );
  const into = `${name(database)}.${name(HOURS)}.${name(HOUR_MEASUREMENT)}`;
  const from = `${name(database)}.${name(full)}.${name(MEASUREMENT)}`;
  return (
    `CREATE CONTINUOUS QUERY ${name(QUERY)} ON ${name(database)} RESAMPLE EVERY 1h FOR ${LATE_days}d ` +
    `BEGIN SELECT ${columns.join(', ')} INTO ${into} FROM ${from} GROUP BY time(1h), "site", "probe" END`
  );
}

/** Every name is of this program or was checked with the address, or is the server's own. */
const name = (text: string): string => `"${text.replace(/["\\]/g, '\\$&')}"`;

const durationOf = (span_ms: number): string => `${span_ms / HOUR_ms}h`;

const spanOf = (span_ms: number): string => (span_ms === 0 ? 'for ever' : `for ${span_ms / DAY_ms} days`);

function policiesOf([table]: readonly Table[]): (Policy & { isDefault: boolean })[] {
  const at = (column: string): number => table?.columns.indexOf(column) ?? -1;
  return (table?.values ?? []).map((row) => ({
    name: String(row[at('name')]),
    keep_ms: readDuration(String(row[at('duration')])),
    isDefault: row[at('default')] === true,
  }));
}

const UNIT_ms: Readonly<Record<string, number>> = { h: HOUR_ms, m: MINUTE_ms, s: 1000 };

/** As the server writes it: `672h0m0s`; 0 is for ever. */
const readDuration = (text: string): number =>
  [...text.matchAll(/(\d+)([hms])/g)].reduce(
    (sum, [, count, unit = '']) => sum + Number(count) * (UNIT_ms[unit] ?? Number.NaN),
    0,
  );
