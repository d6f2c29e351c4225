/**
 * Takes a parsed site file to a checked description.
 */
import { SandlarderError } from '../errors.js';
import { describeIssue, keyOf } from './problem.js';
import { referenceProblems, type SiteDescription, siteShapeSchema } from './site.js';

/** Problems that one message names; of the rest it gives the number. */
const NAMED = 3;

/** The later entry of an id stands in the place of the earlier. */
function merged<Entry extends { id: string }>(known: readonly Entry[], added: readonly Entry[]): Entry[] {
  const entries = new Map(known.map((entry) => [entry.id, entry]));
  for (const entry of added) entries.set(entry.id, entry);
  return [...entries.values()];
}

/**
 * Checks a site file against itself and against what its site has already.
 *
 * @param name the file's name, for messages
 * @param known the site as it stands, where it was loaded before
 * @throws SandlarderError BAD_SITE_FILE with the file, the key, what was expected and what was there
 */
export function checkSiteFile(name: string, json: unknown, known?: SiteDescription): SiteDescription {
  const parsed = siteShapeSchema.safeParse(json, { reportInput: true });
  if (!parsed.success) throw refusal(name, parsed.error.issues.map(describeIssue));
  const site = parsed.data;
  const before = known ?? { beds: [], probes: [], people: [] };
  const problems = referenceProblems(site, before);
  if (problems.length === 0) problems.push(...problemsOfTheRest(site, before));
  if (problems.length > 0)
    throw refusal(
      name,
      problems.map(({ path, message }) => `${keyOf(path)}: ${message}`),
    );
  return site;
}

/** A bed that the file gives another shape must still hold the probes that stand in it already. */
function problemsOfTheRest(
  site: SiteDescription,
  known: Pick<SiteDescription, 'beds' | 'probes' | 'people'> & Partial<Pick<SiteDescription, 'groups'>>,
): { path: (string | number)[]; message: string }[] {
  const changed = new Set(site.probes.map((probe) => probe.id));
  const probes = known.probes.filter((probe) => !changed.has(probe.id));
  const rest = { beds: [], probes, people: [] };
  const all = {
    beds: merged(known.beds, site.beds),
    probes,
    people: merged(known.people, site.people),
    groups: merged(known.groups ?? [], site.groups),
  };
  return referenceProblems(rest, all).map(({ path, message }) => ({
    path: ['beds'],
    message: `${message} (probe "${probes[Number(path[1])]?.id}", loaded before)`,
  }));
}

function refusal(name: string, sentences: readonly string[]): SandlarderError {
  const rest = sentences.length - NAMED;
  const more = rest > 0 ? `; and ${rest} more` : '';
  return new SandlarderError('BAD_SITE_FILE', `${name}: ${sentences.slice(0, NAMED).join('; ')}${more}`);
}
