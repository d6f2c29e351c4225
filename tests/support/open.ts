import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { ARCHIVE_SCHEMA, createArchive, openDatabase } from '../../services/archive/index.js';
import { createRegistry, REGISTRY_SCHEMA } from '../../services/registry/index.js';

/** A directory that is gone after the test. */
export function temporaryDirectory(): string {
  const directory = mkdtempSync(join(tmpdir(), 'sandlarder-'));
  onTestFinished(() => rmSync(directory, { recursive: true, force: true }));
  return directory;
}

/** A fresh database of its own, closed after the test. */
export function openStores(directory = temporaryDirectory()) {
  const database = openDatabase(directory, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
  onTestFinished(() => {
    database.close();
  });
  return { directory, database, archive: createArchive(database), registry: createRegistry(database) };
}
