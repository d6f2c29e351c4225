/** What a file is known by: its content and how it is to be read, whatever it is called. */
import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import type { Mapping } from './mapping.js';
import { unreadable } from './records.js';

/** @returns 64 hexadecimal digits @throws SandlarderError WRONG_USAGE where the file cannot be read */
export async function digestOf(file: string, mapping: Mapping): Promise<string> {
  const hash = createHash('sha256').update(JSON.stringify(mapping)).update('\0');
  try {
    for await (const bytes of createReadStream(file, { highWaterMark: 1024 * 1024 }))
      hash.update(bytes as Buffer);
  } catch (error) {
    throw unreadable(file, error);
  }
  return hash.digest('hex');
}
