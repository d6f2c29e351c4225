/** What of one alarm is to be told to whom by now, whatever the hour and whatever else there is to tell. */
import { HOUR_ms, MINUTE_ms } from '../../model/time.js';
import type { AlarmEvent } from '../text.js';
import { type Household, type Step, stepsOf } from './concerned.js';
import { type Heard, isOver, type Records } from './records.js';
import type { AlarmToTell, Pace, PersonToTell, ReachWay, TellingInput } from './types.js';

/** One event of one alarm that waits to be told to one person. */
export interface Pending {
  readonly alarm: AlarmToTell;
  readonly person: PersonToTell;
  readonly event: AlarmEvent;
  readonly step: number;
  readonly pace: Pace;
  /** When it became known, ms. */
  readonly since: number;
  /** By which it can be told, in order of preference; at least one. */
  readonly ways: readonly ReachWay[];
  /** The first that the person hears of this `unpack`. */
  readonly fresh: boolean;
  readonly unanswered: readonly string[];
  readonly unreached: readonly string[];
}

export interface AlarmDue {
  readonly pending: readonly Pending[];
  /** When there may be more, ms. */
  readonly wakeAt: readonly number[];
  /** Somebody should be told and nobody was or can be. */
  readonly unreachable: boolean;
}

export interface Telling {
  readonly input: TellingInput;
  readonly household: Household;
  readonly records: Records;
}

const NOTHING: AlarmDue = { pending: [], wakeAt: [], unreachable: false };

/** What is to be told of one alarm now, and when it is to be looked at again. */
export function dueOf(alarm: AlarmToTell, telling: Telling): AlarmDue {
  const { now } = telling.input;
  if (isOver(alarm)) return endDue(alarm, telling);
  if (alarm.acknowledgement !== null) return NOTHING;
  if (alarm.shelvedUntil !== null && now < alarm.shelvedUntil)
    return { ...NOTHING, wakeAt: [alarm.shelvedUntil] };
  const bed = telling.household.beds.get(alarm.bed);
  if (!bed) return { ...NOTHING, unreachable: true };
  return openDue(alarm, stepsOf(alarm, bed, telling.household, telling.input.escalation), telling);
}

/** A system that shows alarms as CAP shows one until it is told of the end: it has opened no bed itself. */
const showsUntilTold = ({ reach }: PersonToTell, { raised }: Heard): boolean =>
  raised.some(({ way }) =>
    reach.some(({ via, to, body }) => body === 'cap' && via === way.via && to === way.to),
  );

/** That it is over is told to whoever was told that it began, and does not know of it otherwise. */
function endDue(alarm: AlarmToTell, { household, records }: Telling): AlarmDue {
  const pending: Pending[] = [];
  const wakeAt: number[] = [];
  for (const id of records.peopleOf(alarm.id)) {
    const person = household.people.get(id);
    const heard = person && records.heard(alarm, person);
    const first = heard?.raised[0];
    if (!person || !first || heard.endTold) continue;
    if (alarm.endKnown && !showsUntilTold(person, heard)) continue;
    wakeAt.push(...heard.retryAt);
    if (heard.ways.length === 0) continue;
    pending.push({
      ...{ alarm, person, step: first.step, ways: heard.ways, fresh: false, unanswered: [], unreached: [] },
      event: alarm.withdrawn ? 'withdrawn' : 'cleared',
      pace: alarm.action === 'unpack' ? 'by-day' : 'morning',
      since: alarm.endKnownAt ?? alarm.clearedAt ?? alarm.raisedAt,
    });
  }
  return { pending, wakeAt, unreachable: false };
}

/** Goes from step to step as far as time and silence lead. */
function openDue(alarm: AlarmToTell, steps: readonly Step[], telling: Telling): AlarmDue {
  const { now, settings } = telling.input;
  const all = steps.map((step) => ({ step, people: hear(alarm, step, telling) }));
  const firstToldAt = earliest(all.flatMap(({ people }) => people));
  const giveUpAt = (firstToldAt ?? Number.POSITIVE_INFINITY) + settings.give_up_after_h * HOUR_ms;
  if (!(now < giveUpAt)) return NOTHING;
  const pending: Pending[] = [];
  const wakeAt: number[] = [];
  const unanswered: string[] = [];
  const unreached: string[] = [];
  /** When the last step that was told was first told; undefined where the next is due at once. */
  let toldAt: number | undefined;
  let dueAt = alarm.knownAt ?? alarm.raisedAt;
  for (const { step, people } of all) {
    if (toldAt !== undefined) dueAt = awake(alarm, toldAt) + step.after_min * MINUTE_ms;
    if (toldAt !== undefined && dueAt > now) {
      wakeAt.push(dueAt);
      break;
    }
    const before = { unanswered: [...unanswered], unreached: [...unreached] };
    const found = people.map((listener) => ofOne(alarm, { ...step, dueAt }, listener, telling.input));
    pending.push(...found.flatMap((one) => one.pending.map((item) => ({ ...item, ...before }))));
    wakeAt.push(...found.flatMap((one) => one.wakeAt));
    unanswered.push(...people.filter(wasTold).map(({ person }) => person.id));
    unreached.push(...people.filter(isOutOfReach).map(({ person }) => person.id));
    toldAt = earliest(people);
    if (toldAt === undefined && !people.every(isOutOfReach)) break;
  }
  const unreachable = steps.length > 0 && firstToldAt === undefined && pending.length === 0;
  return { pending, wakeAt: wakeAt.filter((time) => time < giveUpAt), unreachable };
}

interface Listener {
  readonly person: PersonToTell;
  readonly heard: Heard;
}

const hear = (alarm: AlarmToTell, step: Step, { records }: Telling): Listener[] =>
  step.people.map((person) => ({ person, heard: records.heard(alarm, person) }));

const wasTold = ({ heard }: Listener): boolean => heard.raised.length > 0;
const isOutOfReach = ({ heard }: Listener): boolean => heard.raised.length === 0 && heard.ways.length === 0;

function earliest(people: readonly Listener[]): number | undefined {
  const times = people.flatMap(({ heard }) => heard.raised[0]?.at ?? []);
  return times.length === 0 ? undefined : Math.min(...times);
}

/** While an alarm is put off, no time passes for it. */
const awake = ({ shelvedUntil }: AlarmToTell, time: number): number =>
  Math.max(time, shelvedUntil ?? Number.NEGATIVE_INFINITY);

/** The raising, or after it where to dig instead, or the raising again. */
function ofOne(
  alarm: AlarmToTell,
  step: Step & { readonly dueAt: number },
  { person, heard }: Listener,
  { now, settings }: TellingInput,
): Pick<AlarmDue, 'pending' | 'wakeAt'> {
  const unpack = alarm.action === 'unpack';
  const last = heard.raised.at(-1);
  const item = (event: AlarmEvent, since: number): Pending => ({
    ...{ alarm, person, event, since, ways: heard.ways, unanswered: [], unreached: [] },
    step: heard.raised[0]?.step ?? step.number,
    pace: unpack ? 'at-once' : 'morning',
    fresh: unpack && last === undefined,
  });
  const tell = (event: AlarmEvent, since: number): Pick<AlarmDue, 'pending' | 'wakeAt'> => ({
    pending: heard.ways.length === 0 ? [] : [item(event, since)],
    wakeAt: heard.retryAt,
  });
  if (last === undefined) return tell('raised', step.dueAt);
  const { movedAt } = alarm;
  const moved =
    movedAt !== null && last.at < movedAt && !heard.raised.some(({ event }) => event === 'refined');
  if (moved && movedAt <= now) return tell('refined', movedAt);
  const repeatAt = unpack
    ? Math.max(last.at + settings.repeat_after_h * HOUR_ms, awake(alarm, 0))
    : undefined;
  if (repeatAt !== undefined && repeatAt <= now) return tell('raised', repeatAt);
  return {
    pending: [],
    wakeAt: [...(moved ? [movedAt] : []), ...(repeatAt === undefined ? [] : [repeatAt])],
  };
}
