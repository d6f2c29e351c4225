import { createHash } from 'node:crypto';

/** A UUID that follows from a record and the name of a part of it (version 8, RFC 9562 5.8: of one's own making). */
export function derivedId(record: string, part: string): string {
  const digest = createHash('sha256').update(`${record}/${part}`).digest('hex');
  const variant = ((Number.parseInt(digest[16] ?? '0', 16) & 3) | 8).toString(16);
  return [
    digest.slice(0, 8),
    digest.slice(8, 12),
    `8${digest.slice(13, 16)}`,
    `${variant}${digest.slice(17, 20)}`,
    digest.slice(20, 32),
  ].join('-');
}
