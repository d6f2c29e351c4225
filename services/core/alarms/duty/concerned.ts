/** Whom an alarm concerns: those of its bed, and then the steps of the escalation. */
import { SandlarderError } from '../../errors.js';
import type { Group } from '../../model/people.js';
import type { AlarmToTell, BedToTell, PersonToTell, TellingInput } from './types.js';

export interface Step {
  readonly number: number;
  /** Minutes after the step before was first told; 0 of the first. */
  readonly after_min: number;
  /** In order of id, none of whom is in a step before; at least one. */
  readonly people: readonly PersonToTell[];
}

export interface Household {
  readonly people: ReadonlyMap<string, PersonToTell>;
  readonly groups: ReadonlyMap<string, Group>;
  readonly beds: ReadonlyMap<string, BedToTell>;
}

const byId = <Entry extends { readonly id: string }>(what: string, entries: readonly Entry[]) => {
  const map = new Map(entries.map((entry) => [entry.id, entry]));
  if (map.size !== entries.length)
    throw new SandlarderError('CONFLICT', `${what}: expected each id once, got one twice`);
  return map;
};

/** @throws SandlarderError CONFLICT where two people, groups or beds have one id */
export function householdOf({ people, groups, beds }: TellingInput): Household {
  return { people: byId('people', people), groups: byId('groups', groups), beds: byId('beds', beds) };
}

/**
 * The steps of an alarm in order. A step that adds nobody is left out: its minutes do not count.
 * What asks for nothing (`none`) is not passed on.
 */
export function stepsOf(
  alarm: AlarmToTell,
  bed: BedToTell,
  household: Household,
  site: TellingInput['escalation'],
): Step[] {
  const wants = ({ kinds }: PersonToTell): boolean => kinds === undefined || kinds.includes(alarm.kind);
  const seen = new Set<string>();
  const take = (ids: Iterable<string>): PersonToTell[] => {
    const added = [...new Set(ids)].sort().flatMap((id) => household.people.get(id) ?? []);
    const fresh = added.filter((person) => !seen.has(person.id) && wants(person));
    for (const { id } of fresh) seen.add(id);
    return fresh;
  };
  const onwards = alarm.action === 'none' ? [] : (bed.escalation ?? site ?? []);
  const steps = [
    { number: 0, after_min: 0, people: take(ownPeople(alarm, bed, household)) },
    ...onwards.map(({ to, after_min }, index) => {
      return { number: index + 1, after_min, people: take(membersOf(to, alarm, household)) };
    }),
  ];
  return steps.filter(({ people }) => people.length > 0);
}

/** The keeper or the keepers, who follows the bed, and for `unpack` who leads the site. */
function ownPeople(alarm: AlarmToTell, bed: BedToTell, household: Household): string[] {
  const followers = [...household.people.values()].filter(
    ({ beds, lead }) => beds?.includes(bed.id) || (lead === true && alarm.action === 'unpack'),
  );
  const keepers = bed.keeper === undefined ? [] : membersOf(bed.keeper, alarm, household);
  return [...keepers, ...followers.map(({ id }) => id)];
}

/** A person is themselves; of a group all are told of `unpack`, and the lead alone of the rest. */
function membersOf(id: string, { action }: AlarmToTell, { groups }: Household): string[] {
  const group = groups.get(id);
  if (!group) return [id];
  return action === 'unpack' ? [group.lead, ...group.members] : [group.lead];
}
