/** A data folder is its user's own: people's numbers and sign-ins are in it. */
import { chmodSync, mkdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import {
  ARCHIVE_SCHEMA,
  backUp,
  isOpenToOthers,
  lockDirectory,
  makeFolder,
  openDatabase,
  restore,
} from '../../services/archive/index.js';
import { REGISTRY_SCHEMA } from '../../services/registry/index.js';
import { temporaryDirectory } from '../support/open.js';

const PARTS = [ARCHIVE_SCHEMA, REGISTRY_SCHEMA];
const NOW = Date.UTC(2027, 0, 1);

const modeOf = (path: string): number => statSync(path).mode & 0o777;
const fresh = (): string => join(temporaryDirectory(), 'sites', 'ridge');

test.each([
  ['opened', (folder: string) => openDatabase(folder, PARTS).close()],
  ['locked', (folder: string) => lockDirectory(folder)()],
] as const)('a data folder that is made when it is %s lets nobody else in', (_, make) => {
  const folder = fresh();
  make(folder);
  expect(modeOf(folder)).toBe(0o700);
  expect(isOpenToOthers(folder)).toBe(false);
});

test('a backup, and what a restore makes, are for nobody else either', async () => {
  const from = fresh();
  openDatabase(from, PARTS).close();
  const copy = join(temporaryDirectory(), 'copy.db');
  await backUp(from, copy, PARTS);
  expect(modeOf(copy)).toBe(0o600);
  const folder = fresh();
  openDatabase(folder, PARTS).close();
  const { before } = await restore(copy, folder, PARTS, NOW);
  expect(modeOf(before ?? '')).toBe(0o700);
});

test('a folder that was there stays as it is, and is told from a private one', () => {
  const folder = join(temporaryDirectory(), 'wide');
  mkdirSync(folder);
  chmodSync(folder, 0o750);
  openDatabase(folder, PARTS).close();
  expect(modeOf(folder)).toBe(0o750);
  expect(isOpenToOthers(folder)).toBe(true);
});

test('other folders are made as the umask says', () => {
  const folder = fresh();
  const umask = process.umask(0o022);
  try {
    makeFolder(folder);
  } finally {
    process.umask(umask);
  }
  expect(modeOf(folder)).toBe(0o755);
});
