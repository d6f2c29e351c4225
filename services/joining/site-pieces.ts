/** Parts of a site description that are changed by themselves, and what does not hold in them. */
import { SandlarderError } from '../core/errors.js';
import { keyOf } from '../core/model/problem.js';
import type { Problem, SiteDescription } from '../core/model/site.js';
import { siteProblems } from '../core/model/site-file.js';
import type { EntryKind, EntryName, SiteEntry } from '../http/index.js';

const LIST = { bed: 'beds', probe: 'probes', person: 'people', group: 'groups' } as const;

export function entryOf(
  known: SiteDescription,
  { kind, id }: Omit<EntryName, 'site'>,
): SiteEntry | undefined {
  if (kind === 'site') return known.site;
  const list: readonly SiteEntry[] = known[LIST[kind]];
  return list.find((entry) => entry.id === id);
}

/** A description that says of a site this one entry and nothing else. */
export function pieceWith(known: SiteDescription, kind: EntryKind, entry: SiteEntry): SiteDescription {
  const piece: SiteDescription = {
    ...{ version: 1, site: known.site },
    ...{ beds: [], probes: [], people: [], groups: [] },
  };
  return { ...piece, [kind === 'site' ? 'site' : LIST[kind]]: kind === 'site' ? entry : [entry] };
}

/** Problems that one message names. */
const NAMED = 3;

/** @throws SandlarderError BAD_SITE_FILE with the place of each problem in the description */
export function requireFitting(description: SiteDescription, known: SiteDescription | undefined): void {
  refuse(siteProblems(description, known), ['description']);
}

/** @throws SandlarderError BAD_SITE_FILE with the place of each problem in the entry */
export function requireFittingPiece(piece: SiteDescription, known: SiteDescription, kind: EntryKind): void {
  const problems = siteProblems(piece, known).map(({ path, message }) => ({
    path: inEntry(path),
    message,
  }));
  refuse(problems, [kind]);
}

/** `beds[0].keeper` and `site.thresholds` as the entry has it. */
function inEntry([list, ...rest]: Problem['path']): Problem['path'] {
  if (list === 'site') return rest;
  return typeof rest[0] === 'number' ? rest.slice(1) : [];
}

function refuse(problems: readonly Problem[], prefix: Problem['path']): void {
  if (problems.length === 0) return;
  const misfits = problems.map(({ path, message }) => ({ path: [...prefix, ...path], message }));
  const sentences = misfits.slice(0, NAMED).map(({ path, message }) => `${keyOf(path)}: ${message}`);
  const rest = misfits.length - NAMED;
  const more = rest > 0 ? `; and ${rest} more` : '';
  throw new SandlarderError('BAD_SITE_FILE', `${sentences.join('; ')}${more}`, { misfits });
}
