/** Who is told of which alarm now, alone or with others, and when to ask again. */
import { requireInDomain, SandlarderError } from '../../errors.js';
import { EARLIEST_TIME_ms, LATEST_TIME_ms } from '../../model/time.js';
import { householdOf } from './concerned.js';
import { dueOf, type Pending, type Telling } from './due.js';
import { localClock } from './local-clock.js';
import { Post } from './post.js';
import { Records } from './records.js';
import type { TellingInput, TellingPlan } from './types.js';

/**
 * Plans what people are told at an instant. Pure: the same input in any order gives the same plan, and a plan whose
 * records are among the input gives nothing more.
 *
 * An `unpack` is told at once; that it is over, outside quiet hours; all else in one message a morning. Several
 * `unpack` within minutes become one summary. While nobody acknowledges, an alarm goes on to the next step of the
 * escalation, and an `unpack` is told again. Whoever cannot be reached counts as not told.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a time outside 2000..2100 or a time zone that is none; CONFLICT where two
 *   entries of a list have one id
 */
export function planTelling(input: TellingInput): TellingPlan {
  const plan = onePass(input);
  if (plan.tell.length === 0) return plan;
  // What is told now sets when it is told again or passed on.
  const { nextAt } = onePass({ ...input, told: [...input.told, ...plan.record] });
  return { ...plan, nextAt };
}

function onePass(input: TellingInput): TellingPlan {
  const { now, alarms, timeZone } = input;
  requireInDomain('now, ms', now, EARLIEST_TIME_ms, LATEST_TIME_ms);
  if (new Set(alarms.map(({ id }) => id)).size !== alarms.length)
    throw new SandlarderError('CONFLICT', 'alarms: expected each id once, got one twice');
  const clock = localClock(timeZone);
  const telling: Telling = { input, household: householdOf(input), records: new Records(input) };
  const due = alarms.map((alarm) => ({ alarm, ...dueOf(alarm, telling) }));
  const posts = [...byPerson(due.flatMap(({ pending }) => pending))].map(([id, pending]) => {
    const person = telling.household.people.get(id);
    const post = person && new Post(person, telling, clock);
    post?.write(pending);
    return post;
  });
  const wakeAt = [...due, ...posts].flatMap((part) => part?.wakeAt ?? []);
  return {
    tell: posts.flatMap((post) => post?.tell ?? []),
    record: posts.flatMap((post) => post?.record ?? []),
    unreachable: due
      .filter(({ unreachable }) => unreachable)
      .map(({ alarm }) => alarm.id)
      .sort(),
    nextAt: wakeAt.length === 0 ? null : wakeAt.reduce((one, other) => Math.min(one, other)),
  };
}

/** In order of the person's id. */
function byPerson(pending: readonly Pending[]): Map<string, Pending[]> {
  const people = new Map<string, Pending[]>();
  for (const id of [...new Set(pending.map(({ person }) => person.id))].sort()) people.set(id, []);
  for (const item of pending) people.get(item.person.id)?.push(item);
  return people;
}
