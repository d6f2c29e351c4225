/**
 * Takes a parsed site file to a checked description.
 */
import { SandlarderError } from '../errors.js';
import { PEOPLE_LIMITS } from './people.js';
import { describeIssue, keyOf } from './problem.js';
import {
  type Problem,
  referenceProblems,
  SITE_LIMITS,
  type SiteDescription,
  siteShapeSchema,
} from './site.js';

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
  const problems = siteProblems(parsed.data, known);
  if (problems.length > 0)
    throw refusal(
      name,
      problems.map(({ path, message }) => `${keyOf(path)}: ${message}`),
    );
  return parsed.data;
}

type Lists = Pick<SiteDescription, 'beds' | 'probes' | 'people' | 'groups'>;

const NOTHING: Lists = { beds: [], probes: [], people: [], groups: [] };

/** Lists of a description with their bounds: those of what is loaded bit by bit hold for all of it. */
const MOST = {
  beds: SITE_LIMITS.beds,
  probes: SITE_LIMITS.probes,
  people: SITE_LIMITS.people,
  groups: PEOPLE_LIMITS.groups,
} as const;
type List = keyof typeof MOST;
const LISTS = Object.keys(MOST) as List[];

/**
 * What does not hold in a description, or in what its site has already once it is taken in.
 *
 * @param known the site as it stands, where it was loaded before
 */
export function siteProblems(site: SiteDescription, known: Lists = NOTHING): Problem[] {
  const problems = referenceProblems(site, known);
  return problems.length > 0 ? problems : [...fullLists(site, known), ...problemsOfTheRest(site, known)];
}

function fullLists(site: SiteDescription, known: Lists): Problem[] {
  return LISTS.flatMap((list) => {
    const count = merged<{ id: string }>(known[list], site[list]).length;
    if (count <= MOST[list]) return [];
    return [{ path: [list], message: `expected at most ${MOST[list]} in all, got ${count}` }];
  });
}

/** What the rest of a file can do wrong to entries that were loaded before. */
const DISTURBED_BY = { beds: 'site', probes: 'beds', people: 'groups', groups: 'people' } as const;
const ENTRY_WORDS = { beds: 'bed', probes: 'probe', people: 'person', groups: 'group' } as const;

/** Where the file changes a site or a bed, what stands beside it must still hold: thresholds in order, probes in sand. */
function problemsOfTheRest(site: SiteDescription, known: Lists): Problem[] {
  const rest: Lists = {
    beds: untouched(known.beds, site.beds),
    probes: untouched(known.probes, site.probes),
    people: untouched(known.people, site.people),
    groups: untouched(known.groups, site.groups),
  };
  const all: Lists = {
    beds: merged(known.beds, site.beds),
    probes: rest.probes,
    people: merged(known.people, site.people),
    groups: merged(known.groups, site.groups),
  };
  return referenceProblems({ ...rest, site: site.site }, all).flatMap(({ path, message }) => {
    const [list, index] = path as [List, number];
    const entry = rest[list]?.[index];
    if (!entry) return [];
    return [
      {
        path: [DISTURBED_BY[list]],
        message: `${message} (${ENTRY_WORDS[list]} "${entry.id}", loaded before)`,
      },
    ];
  });
}

function untouched<Entry extends { id: string }>(
  known: readonly Entry[],
  changed: readonly Entry[],
): Entry[] {
  const ids = new Set(changed.map(({ id }) => id));
  return known.filter(({ id }) => !ids.has(id));
}

function refusal(name: string, sentences: readonly string[]): SandlarderError {
  const rest = sentences.length - NAMED;
  const more = rest > 0 ? `; and ${rest} more` : '';
  return new SandlarderError('BAD_SITE_FILE', `${name}: ${sentences.slice(0, NAMED).join('; ')}${more}`);
}
