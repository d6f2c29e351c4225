/** Versions of what is changed, as entity tags, and what a change says of the version it is of [RFC 9110 8.8.3, 13.1]. */
import { z } from 'zod';
import { SandlarderError } from '../core/errors.js';
import type { Expected } from './ports-sites.js';

export const tagOf = (version: number): string => `"${version}"`;

/** Described here; what they say is judged by `expectedOf`. */
export const versionHeadersSchema = z.looseObject({
  'if-match': z
    .string()
    .optional()
    .meta({ description: 'The ETag of what was read: what is another version by now is not written over' }),
  'if-none-match': z.string().optional().meta({ description: '* for what is new' }),
});

type VersionHeaders = z.output<typeof versionHeadersSchema>;

/** Tags in one header: more than anybody has seen of one thing. */
const MOST_TAGS = 20;

const TAG = /^(W\/)?"[\x21\x23-\x7e\x80-\xff]*"$/;
const OURS = /^"(\d{1,15})"$/;

/**
 * What a change expects to find.
 *
 * @throws SandlarderError VERSION_MISSING without either header, BAD_REQUEST for a header that is none
 */
export function expectedOf(headers: VersionHeaders): Expected {
  const ifMatch = headers['if-match'];
  const ifNoneMatch = headers['if-none-match'];
  if (ifMatch !== undefined && ifNoneMatch !== undefined)
    throw refusal('expected If-Match or If-None-Match, got both');
  if (ifMatch !== undefined) return ifMatch.trim() === '*' ? 'any' : versionsIn(ifMatch);
  if (ifNoneMatch?.trim() === '*') return 'nothing';
  if (ifNoneMatch !== undefined)
    throw refusal(`If-None-Match: expected * for what is new, got ${JSON.stringify(ifNoneMatch)}`);
  throw new SandlarderError(
    'VERSION_MISSING',
    'expected the header If-Match with the ETag of what was read, or If-None-Match: * for what is new, got neither',
  );
}

/** A tag of somebody else's, and a weak one, match nothing here. */
function versionsIn(header: string): number[] {
  const tags = header.split(',').map((tag) => tag.trim());
  if (!(tags.length <= MOST_TAGS && tags.every((tag) => TAG.test(tag))))
    throw refusal(
      `If-Match: expected an ETag such as "12", with its quotation marks, got ${JSON.stringify(header.slice(0, 100))}`,
    );
  return tags.flatMap((tag) => {
    const digits = OURS.exec(tag)?.[1];
    return digits === undefined ? [] : [Number(digits)];
  });
}

const refusal = (message: string): SandlarderError => new SandlarderError('BAD_REQUEST', message);
