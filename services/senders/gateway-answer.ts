/** Whether a gateway's answer says that it took the message. Many say "200 OK" and the error in the body. */

import type { GatewaySettings } from './gateway-settings.js';
import { type Json, leavesOf } from './gateway-template.js';
import { parsePath, valueAt } from './json-path.js';
import { oneLine } from './one-line.js';

type Success = GatewaySettings['success'];

/** Characters that a regular expression is tried on, and that are shown of a value. */
const TRIED = 1000;
const SHOWN = 60;

export const statusIsGood = ({ status }: Success, got: number): boolean =>
  status ? status.includes(got) : got >= 200 && got < 300;

/** Whether the body has to be read at all. */
export const asksBody = ({ path, matches }: Success): boolean => path !== undefined || matches !== undefined;

export const fits = (pattern: string, text: string): boolean =>
  new RegExp(pattern, 'u').test(text.slice(0, TRIED));

/** Takes secrets out of what came from outside. */
type Hide = (text: string) => string;

function parsed(said: string): unknown {
  try {
    return JSON.parse(said);
  } catch {
    return undefined;
  }
}

const shown = (value: unknown, hide: Hide): string => {
  const text =
    typeof value === 'string' ? JSON.stringify(hide(value)) : hide(JSON.stringify(value) ?? 'none');
  return oneLine(text, SHOWN);
};

/** What an answer lacks of a success; undefined where it is one. */
export function answerProblem(
  { path, equals, matches }: Success,
  said: string,
  hide: Hide = (text) => text,
): string | undefined {
  if (path === undefined)
    return matches === undefined || fits(matches, said) ? undefined : `expected an answer like ${matches}`;
  const value = valueAt(parsed(said), parsePath(path));
  const isScalar = typeof value !== 'object' || value === null;
  const text = isScalar ? String(value) : JSON.stringify(value);
  if (equals !== undefined)
    return value !== undefined && isScalar && text === String(equals)
      ? undefined
      : `expected ${path} to be ${JSON.stringify(equals)}, got ${shown(value, hide)}`;
  if (matches !== undefined)
    return value !== undefined && fits(matches, text)
      ? undefined
      : `expected ${path} to be like ${matches}, got ${shown(value, hide)}`;
  return value ? undefined : `expected something at ${path}, got ${shown(value, hide)}`;
}

/** Shorter ones are words of the gateway's own language, as "sms". */
const SECRET_LENGTH = 6;

/** `Basic` is user and password in base64, RFC 7617. */
function credentialsIn(header: string): string[] {
  const [scheme, ...words] = header.split(' ');
  if (scheme?.toLowerCase() !== 'basic') return [header, ...words];
  return [
    header,
    ...words,
    ...Buffer.from(words[0] ?? '', 'base64')
      .toString()
      .split(':'),
  ];
}

/** Pieces of the path and the query of a URL, as they stand and decoded. */
function piecesOf(url: string): string[] {
  const pieces = url.replace(/^[^/]*\/\/[^/?#]*/, '').split(/[/?&=#]/);
  return pieces.flatMap((piece) => [piece, ...new URLSearchParams(`x=${piece}`).getAll('x')]);
}

/** Everything in the settings that may be a secret, longest first. */
export function secretsOf({ url, headers, body }: GatewaySettings): string[] {
  const all = [...piecesOf(url), ...Object.values(headers).flatMap(credentialsIn), ...leavesOf(body as Json)];
  const literal = all.flatMap((text) => [text, ...text.split(/<<.*?>>/)]).map((text) => text.trim());
  return [...new Set(literal)]
    .filter((text) => text.length >= SECRET_LENGTH && !text.includes('<<'))
    .sort((a, b) => b.length - a.length);
}

/** The text with a mark for each secret in it: gateways repeat what they were sent. */
export function withoutSecrets(text: string, secrets: readonly string[]): string {
  return secrets.reduce((rest, secret) => rest.replaceAll(secret, '[hidden]'), text);
}
