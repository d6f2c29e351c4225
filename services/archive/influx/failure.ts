/**
 * What a failed write means: a record that will never be taken, or a server in trouble that may take it later.
 *
 * Only what names a record is put down to the record. A wrong password, a database that is missing, a proxy that answers
 * for the server: all of that passes, and no reading may be set aside for it.
 */
import { RequestError } from 'influx/lib/src/pool.js';

export interface Failure {
  /** `refused`: something in the request will never be taken. `too-large`: less at a time may be. */
  readonly kind: 'refused' | 'too-large' | 'trouble';
  /** Whether the server answers and will go on answering so until somebody sees to it. */
  readonly standing: boolean;
  readonly reason: string;
}

/** 400 by 1.x; 422 by later ones. */
const REFUSING: readonly (number | undefined)[] = [400, 422];

const TOO_LARGE = 413;

/** What the lines of 1.x and of later ones say of a record; everything else that is 400 concerns the request. */
const OF_A_RECORD =
  /partial write|unable to parse|field type conflict|invalid field|invalid tag|points beyond/i;

const HELP: Readonly<Record<number, string>> = {
  401: 'it asks for a user and a password, or for others',
  403: 'its user may not write there',
  404: 'the database is missing: sandlarder archive setup makes it',
};

/** What OpenSSL says of this fills lines, and names neither end. */
const NO_TLS = 'expected a server that speaks TLS at an address with https, got one that does not';

/** Longest reason that is kept, characters. */
const LONGEST = 300;

export function failureOf(error: unknown): Failure {
  if (!(error instanceof RequestError)) {
    const standing = isNoAnswer(error);
    const reason = standing ? `what answers there is no InfluxDB: ${wordsOf(error)}` : wordsOf(error);
    return { kind: 'trouble', standing, reason };
  }
  const status = error.res.statusCode ?? 0;
  const said = saidIn(error.message);
  if (status === TOO_LARGE)
    return { kind: 'too-large', standing: true, reason: 'larger than the server takes' };
  if (REFUSING.includes(status) && OF_A_RECORD.test(said))
    return { kind: 'refused', standing: true, reason: said };
  const help = HELP[status];
  return { kind: 'trouble', standing: true, reason: `${status} ${said}${help ? `: ${help}` : ''}` };
}

/** Something answers, and not by HTTP: `HPE_…` is what Node's parser says. */
const isNoAnswer = (error: unknown): boolean =>
  error instanceof Error && String((error as { code?: unknown }).code).startsWith('HPE_');

/** The client puts the answer behind its own words; an InfluxDB answers JSON. */
function saidIn(message: string): string {
  const body = message.replace(/^A \d+ .*? error occurred: /s, '').trim();
  try {
    const { error, message: words } = JSON.parse(body) as { error?: string; message?: string };
    return (error ?? words ?? body).slice(0, LONGEST);
  } catch {
    return body.slice(0, LONGEST);
  }
}

function wordsOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error).slice(0, LONGEST);
  const { code } = error as Error & { code?: string };
  if (code === 'EPROTO') return NO_TLS;
  return (error.message || code || error.name).replace(/\s+/g, ' ').trim().slice(0, LONGEST);
}
