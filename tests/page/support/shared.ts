/** A season that tests share which write to it, each where the others do not look: begun by the first, ended after the last. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';
import { startKept } from '../../support/processes.js';
import type { Served } from './page.js';
import { addressesOf, copyTo } from './reading.js';

/** What is undone after the last of the tests, the latest first. */
export type Undo = (undoing: () => unknown) => void;

/**
 * Of a file, or of a `describe` in it: called where tests are named, not in one.
 *
 * @returns gives the same to each test
 */
export function sharedByThese<Shared>(begin: (undo: Undo) => Promise<Shared>): () => Promise<Shared> {
  let begun: Promise<Shared> | undefined;
  const undone: (() => unknown)[] = [];
  afterAll(async () => {
    await begun?.catch(() => undefined);
    for (const undoing of undone.reverse()) await undoing();
  });
  return () => {
    begun ??= begin((undoing) => undone.push(undoing));
    return begun;
  };
}

/** A folder that is gone after the last test. */
export function sharedDirectory(undo: Undo): string {
  const directory = mkdtempSync(join(tmpdir(), 'sandlarder-shared-'));
  undo(() => rmSync(directory, { recursive: true, force: true }));
  return directory;
}

/** @param data folder with a season; a copy of that of these tests where absent */
export async function sharedService(
  undo: Undo,
  { data, environment }: { data?: string; environment?: NodeJS.ProcessEnv } = {},
): Promise<Served> {
  const folder = data ?? join(sharedDirectory(undo), 'data');
  if (data === undefined) copyTo(folder);
  const service = startKept(
    ['serve', '--data', folder, '--listen', '127.0.0.1:0', '--mqtt-listen', '127.0.0.1:0'],
    environment,
  );
  undo(() => service.kill());
  return { ...(await addressesOf(service)), data: folder, service };
}

/** One service of a copy of the season. */
export const sharedSeason = (): (() => Promise<Served>) => sharedByThese((undo) => sharedService(undo));
