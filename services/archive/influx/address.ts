/** Where an InfluxDB is: `http://host:8086/database` or, with TLS, `https://host:8086/database`. */
import { SandlarderError } from '../../core/errors.js';

export interface InfluxCredentials {
  readonly user: string;
  readonly password: string;
}

export interface InfluxAddress {
  readonly tls: boolean;
  readonly host: string;
  readonly port: number;
  /** What stands before `/write` and `/query`: empty, or the part of a proxy such as `/history`. */
  readonly prefix: string;
  readonly database: string;
  readonly credentials: InfluxCredentials | undefined;
}

/** Of the scheme, not of the program: an address without a port means the same to everybody who reads it. */
const PORT: Readonly<Record<string, number>> = { 'http:': 80, 'https:': 443 };

/** What a name of a database is held to here: no quoting, no blanks, fit for a path. */
const DATABASE = /^[A-Za-z0-9][A-Za-z0-9_.-]{0,63}$/;

const LONGEST_SECRET = 256;

/**
 * Reads the address of a long archive.
 *
 * @param credentials from the environment, where the address holds none
 * @throws SandlarderError WRONG_USAGE naming what was expected; what may be a password is not repeated
 */
export function parseInfluxUrl(text: string, credentials?: InfluxCredentials): InfluxAddress {
  const url = URL.canParse(text) ? new URL(text) : undefined;
  const port = url === undefined ? undefined : PORT[url.protocol];
  if (url === undefined || port === undefined || url.hostname === '')
    throw wrong('expected http://host:8086/database or https://host:8086/database', withoutSecrets(text));
  if (url.search !== '' || url.hash !== '')
    throw wrong('expected nothing after the database', `${url.search}${url.hash}`);
  const parts = url.pathname.split('/').slice(1);
  const database = parts.pop() ?? '';
  if (!DATABASE.test(database))
    throw wrong(
      'expected a database at its end, of letters, digits, dots, hyphens and underscores',
      withoutSecrets(text),
    );
  return Object.freeze({
    tls: url.protocol === 'https:',
    host: url.hostname.replace(/^\[(.*)\]$/, '$1'),
    port: url.port === '' ? port : Number(url.port),
    prefix: parts.map((part) => `/${part}`).join(''),
    database,
    credentials: credentialsOf(url) ?? credentials,
  });
}

function credentialsOf({ username, password }: URL): InfluxCredentials | undefined {
  if (username === '' && password === '') return undefined;
  const pair = { user: decoded(username), password: decoded(password) };
  for (const part of [pair.user, pair.password])
    if (!(part.length >= 1 && part.length <= LONGEST_SECRET))
      throw wrong(`expected user and password of 1 to ${LONGEST_SECRET} characters`, 'others');
  if (pair.user.includes(':')) throw wrong('expected a user without a colon', 'one with a colon');
  return Object.freeze(pair);
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    throw wrong('expected user and password with % as %25', 'a % that stands for nothing');
  }
}

/** The address as it may be shown. */
export const shownAddress = ({ tls, host, port, prefix, database }: InfluxAddress): string =>
  `${tls ? 'https' : 'http'}://${host.includes(':') ? `[${host}]` : host}:${port}${prefix}/${database}`;

const wrong = (expected: string, got: string): SandlarderError =>
  new SandlarderError('WRONG_USAGE', `InfluxDB address: ${expected}, got ${got}`);

const withoutSecrets = (text: string): string => JSON.stringify(text.replace(/\/\/.*@/, '//…@'));
