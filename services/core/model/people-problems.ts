/** What the people, groups and escalations of a site description refer to, and whether it is there. */
import type { Escalation, Group } from './people.js';

interface DescribedBed {
  readonly id: string;
  readonly keeper?: string | undefined;
  readonly escalation?: Escalation | undefined;
}

interface DescribedPerson {
  readonly id: string;
  readonly language: string;
  readonly beds?: readonly string[] | undefined;
}

/** What of a site description is about people; a `SiteDescription` is one. */
export interface DescribedPeople {
  readonly site?: { readonly escalation?: Escalation | undefined } | undefined;
  readonly beds: readonly DescribedBed[];
  readonly people: readonly DescribedPerson[];
  readonly groups?: readonly Group[] | undefined;
}

type Path = (string | number)[];

/** The same as `Problem` of site.ts, which may import this file. */
interface Found {
  readonly path: Path;
  readonly message: string;
}

interface Known {
  readonly people: ReadonlySet<string>;
  readonly groups: ReadonlySet<string>;
  readonly beds: ReadonlySet<string>;
}

const idsOf = (...lists: (readonly { readonly id: string }[] | undefined)[]): Set<string> =>
  new Set(lists.flatMap((list) => (list ?? []).map(({ id }) => id)));

/**
 * Keepers, leads, members and escalations must point at what the site has, escalations must not return to whom they
 * come from, and languages must be ones that can be written.
 *
 * @param languages that alarms can be told in
 * @param known the site as it stands, where it was loaded before
 */
export function peopleProblems(
  site: DescribedPeople,
  languages: readonly string[],
  known: DescribedPeople = site,
): Found[] {
  const all: Known = {
    people: idsOf(known.people, site.people),
    groups: idsOf(known.groups, site.groups),
    beds: idsOf(known.beds, site.beds),
  };
  return [
    ...site.people.flatMap((person, index) => personProblems(person, ['people', index], languages, all)),
    ...site.people.flatMap(({ id }, index) =>
      all.groups.has(id) ? [sharedId(id, ['people', index, 'id'])] : [],
    ),
    ...groupProblems(site.groups ?? [], all),
    ...escalationProblems(site.site?.escalation, ['site', 'escalation'], undefined, all),
    ...site.beds.flatMap((bed, index) => bedProblems(bed, ['beds', index], all)),
  ];
}

const unknown = (path: Path, what: string, got: string): Found => ({
  path,
  message: `expected the id of one of ${what}, got ${JSON.stringify(got)}`,
});

/** A keeper is named by an id alone. */
const sharedId = (id: string, path: Path): Found => ({
  path,
  message: `expected an id that a person and a group do not share, got ${JSON.stringify(id)}`,
});

function personProblems(
  person: DescribedPerson,
  path: Path,
  languages: readonly string[],
  known: Known,
): Found[] {
  const problems = (person.beds ?? []).flatMap((bed, at) =>
    known.beds.has(bed) ? [] : [unknown([...path, 'beds', at], 'beds', bed)],
  );
  const [base = ''] = person.language.toLowerCase().split(/[-_]/);
  if (!languages.includes(base))
    problems.push({
      path: [...path, 'language'],
      message: `expected one of the languages ${languages.join(', ')}, got ${JSON.stringify(person.language)}`,
    });
  return problems;
}

function groupProblems(groups: readonly Group[], known: Known): Found[] {
  return groups.flatMap((group, index) => {
    const path: Path = ['groups', index];
    const problems: Found[] = [];
    if (known.people.has(group.id)) problems.push(sharedId(group.id, [...path, 'id']));
    const first = groups.findIndex(({ id }) => id === group.id);
    if (first < index)
      problems.push({
        path: [...path, 'id'],
        message: `expected an id of its own, got ${JSON.stringify(group.id)}, which groups[${first}] has`,
      });
    if (!known.people.has(group.lead)) problems.push(unknown([...path, 'lead'], 'people', group.lead));
    return [...problems, ...memberProblems(group.members, [...path, 'members'], known)];
  });
}

function memberProblems(members: readonly string[], path: Path, known: Known): Found[] {
  return members.flatMap((member, at) => {
    if (!known.people.has(member)) return [unknown([...path, at], 'people', member)];
    if (members.indexOf(member) === at) return [];
    return [
      { path: [...path, at], message: `expected each member once, got ${JSON.stringify(member)} again` },
    ];
  });
}

function bedProblems({ keeper, escalation }: DescribedBed, path: Path, known: Known): Found[] {
  const problems = escalationProblems(escalation, [...path, 'escalation'], keeper, known);
  if (keeper !== undefined && !isSomebody(keeper, known))
    problems.unshift(unknown([...path, 'keeper'], 'people or groups', keeper));
  return problems;
}

const isSomebody = (id: string, known: Known): boolean => known.people.has(id) || known.groups.has(id);

/**
 * @param keeper of the bed: whoever has not answered is not the one to pass it on to. A site's own escalation may
 *   name the keeper of some bed; there the step is left out.
 */
function escalationProblems(
  escalation: Escalation | undefined,
  path: Path,
  keeper: string | undefined,
  known: Known,
): Found[] {
  const steps = escalation ?? [];
  return steps.flatMap(({ to }, at) => {
    const where: Path = [...path, at, 'to'];
    if (!isSomebody(to, known)) return [unknown(where, 'people or groups', to)];
    const earlier = to === keeper || steps.findIndex((step) => step.to === to) < at;
    if (!earlier) return [];
    return [
      {
        path: where,
        message: `expected somebody who was not told before: an escalation must not go in a circle, got ${JSON.stringify(to)} again`,
      },
    ];
  });
}
