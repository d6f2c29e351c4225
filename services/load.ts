/**
 * `sandlarder load`: takes a site file into a data directory, whether or not a service runs on it.
 */
import { ARCHIVE_SCHEMA, openDatabase } from './archive/index.js';
import { peopleNotes } from './core/alarms/people-notes.js';
import { SandlarderError } from './core/errors.js';
import { checkSiteFile } from './core/model/site-file.js';
import { formatTime } from './core/model/time.js';
import { textOf } from './files.js';
import { beginDeed, deedOfCommand } from './joining/access/by-command.js';
import { directoryOfSite } from './joining/sharing/group-folder.js';
import { createRegistry, type Loaded, REGISTRY_SCHEMA, type Registry } from './registry/index.js';

/** Longest site file, bytes: a site of 20,000 probes takes about 5 MB. */
const SITE_FILE_bytes = 16 * 1024 * 1024;

/** @throws SandlarderError BAD_SITE_FILE where the file cannot be read or holds no JSON */
export function readJsonFile(file: string): unknown {
  const text = textOf(file, { code: 'BAD_SITE_FILE', most_bytes: SITE_FILE_bytes });
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    throw new SandlarderError('BAD_SITE_FILE', `${file}: expected JSON: ${(error as Error).message}`);
  }
}

/**
 * Loads a site file.
 *
 * @param now wall clock, ms
 * @throws SandlarderError BAD_SITE_FILE, CONFLICT or STORE_UNAVAILABLE
 */
export function loadSiteFile(directory: string, file: string, now: number): Loaded {
  return loadSite(directory, file, readJsonFile(file), now);
}

/**
 * Loads a parsed site file, and notes in the audit trail who did.
 *
 * @param name what messages call it
 */
export function loadSite(folder: string, name: string, json: unknown, now: number): Loaded {
  requireObject(name, json);
  const directory = directoryOfSite(folder, siteIdIn(json));
  const database = openDatabase(directory, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
  try {
    const registry = createRegistry(database);
    const deed = beginDeed(registry, () => now, deedOfCommand('load', name));
    try {
      const loaded = takeIn(registry, name, json, now);
      deed.done(describeLoaded(loaded));
      return loaded;
    } catch (error) {
      deed.notDone(error);
      throw error;
    }
  } finally {
    database.close();
  }
}

/** As it stands there: whether it is an id is seen when the whole file is checked. */
const siteIdIn = (json: unknown): string => String((json as { site?: { id?: unknown } }).site?.id ?? '');

function takeIn({ sites }: Registry, name: string, json: unknown, now: number): Loaded {
  const id = siteIdIn(json);
  const known = sites.descriptions().find((description) => description.site.id === id);
  return loadNamed(name, () => sites.load(checkSiteFile(name, json, known), now));
}

/** What contradicts another site is the file's fault too, and said with its name. */
function loadNamed(name: string, load: () => Loaded): Loaded {
  try {
    return load();
  } catch (error) {
    if (!(error instanceof SandlarderError && error.code === 'CONFLICT')) throw error;
    throw new SandlarderError('BAD_SITE_FILE', `${name}: ${error.message}`, { cause: error });
  }
}

/** A file that is no object at all is refused before a data directory is made for it. */
function requireObject(name: string, json: unknown): void {
  if (typeof json !== 'object' || json === null || Array.isArray(json))
    throw new SandlarderError('BAD_SITE_FILE', `${name}: expected a JSON object with "version" and "site"`);
}

/** Beds that keep the filling that was written down at them: a line for each. */
export const keptFillings = ({ filledOtherwise }: Loaded): string[] =>
  filledOtherwise.map(
    ({ bed, at }) =>
      `note: ${bed} stays filled since ${formatTime(at)}, as was written down at the bed; a file that says "filled" a day later or more tells of a new filling`,
  );

/** `site ridge-station: 1 bed added, 2 probes changed, 3 as before`. */
export function describeLoaded({ site, counts }: Loaded): string {
  const parts = Object.entries(counts).flatMap(([kind, { added, changed }]) => [
    ...(added > 0 ? [`${added} ${plural(kind, added)} added`] : []),
    ...(changed > 0 ? [`${changed} ${plural(kind, changed)} changed`] : []),
  ]);
  return `site ${site}: ${parts.length > 0 ? parts.join(', ') : 'nothing new'}`;
}

function plural(kind: string, count: number): string {
  if (count === 1) return kind;
  return kind === 'person' ? 'people' : `${kind}s`;
}

/** What a technician should know of a site's people: a line for each way that cannot be used, and each draft. */
export function notesOn(folder: string, site: string): string[] {
  const database = openDatabase(directoryOfSite(folder, site), [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
  try {
    const description = createRegistry(database)
      .sites.descriptions()
      .find((one) => one.site.id === site);
    return peopleNotes(description?.people ?? []).map((note) => `note: ${note}`);
  } finally {
    database.close();
  }
}
