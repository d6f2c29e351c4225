/** Holds what is written as CAP against a grammar, with an XML parser that others wrote (xmllint, of libxml2). */
import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';

const GRAMMAR = new URL('../checks/cap-1.2.rng', import.meta.url).pathname;

/** Resolves where every document is well formed and valid; rejects with what the program says otherwise. */
export async function validateCap(documents: readonly string[]): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), 'cap-'));
  try {
    const files = documents.map((_, n) => join(folder, `${n}.xml`));
    await Promise.all(documents.map((xml, n) => writeFile(files[n] ?? '', xml)));
    await promisify(execFile)('xmllint', ['--noout', '--nonet', '--relaxng', GRAMMAR, ...files]);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
