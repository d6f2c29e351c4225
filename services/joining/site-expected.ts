/** Whether what is to be changed is what whoever changes it has seen. */
import { SandlarderError } from '../core/errors.js';
import { formatTime } from '../core/model/time.js';
import type { EntryName, Expected } from '../http/index.js';
import type { Registry, SiteChange } from '../registry/index.js';

type Versions = Registry['siteVersions'];

/** @throws SandlarderError CHANGED_MEANWHILE */
export function requireExpected(versions: Versions, { kind, site, id }: EntryName, expected: Expected): void {
  const version = versions.ofEntry(kind, site, id);
  require(`${kind} "${id}"`, version, expected, () => versions.lastChange(kind, site, id));
}

/** The same for a site as a whole. */
export function requireExpectedSite(versions: Versions, site: string, expected: Expected): void {
  require(`site "${site}"`, versions.ofSite(site), expected, () => versions.changes(site, 1)[0]);
}

function require(
  what: string,
  version: number | undefined,
  expected: Expected,
  lastChange: () => SiteChange | undefined,
): void {
  if (expected === 'nothing') {
    if (version === undefined) return;
    throw refusal(`${what}: expected an id that is not in use yet, got one that is there already`);
  }
  if (version === undefined) throw refusal(`${what}: expected one that is there, got none`);
  if (expected === 'any' || expected.includes(version)) return;
  const last = lastChange();
  const who = last ? ` by ${last.by ?? 'a file that was loaded'} at ${formatTime(last.at)}` : '';
  throw refusal(
    `${what} was changed meanwhile${who}: expected version ${expected.join(' or ') || 'none'}, it is ${version} by now; read it again, then change it`,
  );
}

const refusal = (message: string): SandlarderError => new SandlarderError('CHANGED_MEANWHILE', message);
