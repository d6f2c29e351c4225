/**
 * Brings alarms at rest in line with what the watch has found, and writes the messages that follow, all within
 * the caller's transaction.
 */
import { alarmId } from '../core/alarms/alarm-id.js';
import type { ToldRecord } from '../core/alarms/duty/index.js';
import { shownState, stateOf } from '../core/alarms/life-cycle.js';
import { mustBeToldAnew } from '../core/alarms/moved.js';
import { tell } from '../core/alarms/telling.js';
import { type AlarmEvent, alarmText } from '../core/alarms/text.js';
import type { Alarm, Episode } from '../core/model/alarm.js';
import { DAY_ms, HOUR_ms } from '../core/model/time.js';
import { type TimedChange, toEpisodes } from '../core/watch/episodes.js';
import type { AlarmRow, Registry } from '../registry/index.js';
import type { KnownBed } from './directory.js';

/** How far the time of raising may move, when late readings come in, for the alarm still to be the same to people. */
const SAME_ALARM_ms = 7 * DAY_ms;

export interface KeeperOptions {
  /** Told of every alarm of every bed. */
  readonly webhooks: readonly string[];
  /** Wall clock, ms. */
  readonly now: () => number;
  /** Something changed for a bed: its lamp and its messages are to be seen to after the commit. */
  readonly onChange: (bed: KnownBed, alarms: readonly string[]) => void;
  readonly onRaised: (alarm: Alarm) => void;
  /** A person's way that this service cannot use. */
  readonly onUnusable: (who: string, via: string, reason: string) => void;
}

/**
 * The stored row as an alarm with its state.
 *
 * @param now wall clock, ms: what is shelved by then
 */
export function asAlarm(row: AlarmRow, now: number): Alarm {
  const { withdrawn: _, told: __, number: ___, shelving, ...rest } = row;
  const { knownAt: _a, endKnownAt: _b, movedAt: _c, endKnown: _d, formerly: _e, ...alarm } = rest;
  const state = shownState(row.clearedAt, row.acknowledgement, shelving, now);
  return { ...alarm, state, ...(shelving && { shelving }) };
}

const sameEpisode = (row: AlarmRow, episode: Episode, text: string): boolean =>
  row.clearedAt === episode.clearedAt &&
  row.text === text &&
  row.priority === episode.priority &&
  JSON.stringify(row.evidence) === JSON.stringify(episode.evidence) &&
  JSON.stringify(row.place) === JSON.stringify(episode.place);

/** What the watch has found of a bed. */
export interface Found {
  /** Event time from which it looked (anew), ms. */
  readonly since: number;
  /** The episodes that were open at that time, as they were known then. */
  readonly open: readonly Episode[];
  /** What it established after that, in order. */
  readonly changes: readonly TimedChange[];
}

/** What stood before an episode is settled. */
interface Before {
  readonly row: AlarmRow | undefined;
  /** Alarms that are no longer found, and whose place nobody has taken yet. */
  readonly gone: AlarmRow[];
  /** It ended because a graver one of its kind began: then only that one is told. */
  readonly graver: boolean;
  /** When its place became better known last, ms. */
  readonly movedAt: number | undefined;
}

export class AlarmKeeper {
  readonly #registry: Registry;
  readonly #options: KeeperOptions;

  constructor(registry: Registry, options: KeeperOptions) {
    this.#registry = registry;
    this.#options = options;
  }

  /** Brings the alarms of a bed after a time in line with what the watch has now found. */
  reconcile(known: KnownBed, { since, open, changes }: Found): void {
    const before = this.#registry.alarms.touchedSince(known.bed.id, since);
    const episodes = toEpisodes(known.bed.id, open, changes);
    const found = new Map(episodes.map((episode) => [alarmId(known.site.id, episode), episode]));
    const gone = before.filter((row) => !found.has(row.id));
    const changed = gone.map(({ id }) => id);
    for (const row of gone) {
      this.#registry.alarms.withdraw(row.id);
      const replaced = episodes.some((episode) => isAbout(row, episode));
      this.#registry.alarms.noteEnd(row.id, this.#options.now(), replaced);
    }
    const rows = new Map(before.map((row) => [row.id, row]));
    for (const [id, episode] of found) {
      const graver = episodes.some(
        (other) => isOfOneKind(other, episode) && other.raisedAt === episode.clearedAt,
      );
      const isOther = this.#settle(known, id, episode, {
        row: rows.get(id),
        gone,
        graver,
        movedAt: changes.findLast((change) => change.type === 'refine' && isOfOneKind(change, episode))?.at,
      });
      if (isOther) changed.push(id);
    }
    for (const row of gone) {
      const replaced = episodes.some((episode) => isAbout(row, episode));
      if (!replaced && this.#registry.outbox.timesTold(row.id, 'raised') > 0)
        this.#tell(known, row.id, 'withdrawn');
    }
    this.#options.onChange(known, changed);
  }

  /** @returns whether anything of it is other than before */
  #settle(known: KnownBed, id: string, episode: Episode, before: Before): boolean {
    const text = alarmText(episode, known.bed);
    if (before.row && sameEpisode(before.row, episode, text)) return false;
    this.#write(known, id, episode, text, before);
    return true;
  }

  #write(
    known: KnownBed,
    id: string,
    episode: Episode,
    text: string,
    { row, gone, graver, movedAt }: Before,
  ): void {
    this.#registry.alarms.put(id, known.site.id, episode, text);
    const predecessor = row ? undefined : takePredecessor(gone, episode);
    if (predecessor) this.#inherit(id, predecessor);
    this.#registry.alarms.noteKnown(id, this.#options.now());
    const earlier = row ?? predecessor;
    const reopened = earlier !== undefined && earlier.clearedAt !== null && episode.clearedAt === null;
    if (!earlier || reopened) this.#forgetAnswer(id);
    if (!earlier || reopened) this.#tell(known, id, 'raised');
    else this.#tellWhereItMoved(known, id, movedAt);
    const ended = episode.clearedAt !== null && (earlier?.clearedAt ?? null) === null;
    if (reopened) this.#registry.alarms.noteEnd(id, null, false);
    if (!ended) return;
    const endKnown = graver || this.#wasLookedInto(known, episode);
    this.#registry.alarms.noteEnd(id, this.#options.now(), endKnown);
    if (!endKnown) this.#tell(known, id, 'cleared');
  }

  /** Whoever acknowledged it was told since that it is over, and does not know that it is back. */
  #forgetAnswer(id: string): void {
    const row = this.#registry.alarms.get(id);
    const answeredAt = row?.acknowledgement?.at;
    if (!row || answeredAt === undefined) return;
    const isEnd = ({ event, at }: ToldRecord): boolean =>
      (event === 'cleared' || event === 'withdrawn') && at >= answeredAt;
    const told = [id, ...row.formerly].flatMap((alarm) => this.#registry.told.ofAlarm(alarm));
    if (told.some(isEnd)) this.#registry.alarms.unacknowledge(id);
  }

  /** People take the two for one alarm: its number too. */
  #inherit(id: string, { id: before, formerly, ...known }: AlarmRow): void {
    const { acknowledgement, shelving, told, number, knownAt } = known;
    this.#registry.alarms.noteFormerly(id, [before, ...formerly]);
    if (number !== null) {
      this.#registry.alarms.noteNumber(before, null);
      this.#registry.alarms.noteNumber(id, number);
    }
    if (knownAt !== null) this.#registry.alarms.noteKnown(id, knownAt);
    if (shelving) this.#registry.alarms.shelve(id, shelving);
    if (acknowledgement) this.#registry.alarms.acknowledge(id, acknowledgement);
    this.#registry.alarms.noteTold(id, told);
  }

  /** Once for an alarm, and only while nobody has said that they have seen it: whoever digs by then sees for themselves. */
  #tellWhereItMoved(known: KnownBed, id: string, at: number | undefined): void {
    const row = this.#registry.alarms.get(id);
    if (!row || stateOf(row.clearedAt, row.acknowledgement) !== 'unacknowledged') return;
    const digs = row.action === 'unpack' || row.action === 'check';
    if (!digs || row.told.again || !mustBeToldAnew(row.told.place, row.place)) return;
    this.#registry.alarms.noteMoved(id, this.#options.now());
    this.#tell(known, id, 'refined', at);
  }

  /** Whoever opened the bed by then knows that the alarm is over, and not that readings are back to normal. */
  #wasLookedInto({ bed }: KnownBed, { clearedAt }: Episode): boolean {
    if (clearedAt === null) return false;
    return this.#registry.inspections
      .between(bed.id, clearedAt - HOUR_ms, clearedAt + 1)
      .some(({ opened }) => opened);
  }

  #tell(known: KnownBed, id: string, event: AlarmEvent, at?: number): void {
    const row = this.#registry.alarms.get(id);
    if (!row) return;
    const alarm = asAlarm(row, this.#options.now());
    if (event === 'raised') this.#options.onRaised(alarm);
    if (event === 'raised' || event === 'refined')
      this.#registry.alarms.noteTold(id, { place: row.place, again: event === 'refined' });
    const { messages, unusable } = tell({
      alarm,
      event,
      at,
      bed: known.bed,
      timeZone: known.site.timezone,
      webhooks: this.#options.webhooks,
      toldBefore: this.#registry.outbox.timesTold(id, event),
    });
    this.#registry.outbox.add(
      messages.map((message) => ({ ...message, alarm: id, event })),
      this.#options.now(),
    );
    for (const { who, via, reason } of unusable) this.#options.onUnusable(who, via, reason);
  }
}

/** The episodes of a bed that are open as it stands, in order of raising. */
export function openEpisodes(registry: Registry, bed: string): Episode[] {
  return registry.alarms.open(bed).reverse().map(episodeOf);
}

/** The episodes of a bed that were open at a time, as if they lasted still, in order of raising. */
export function episodesOpenAt(registry: Registry, bed: string, time: number): Episode[] {
  return registry.alarms
    .touchedSince(bed, time)
    .filter(({ raisedAt }) => raisedAt <= time)
    .map((row) => ({ ...episodeOf(row), clearedAt: null }));
}

function episodeOf({
  bed,
  kind,
  priority,
  action,
  subject,
  raisedAt,
  clearedAt,
  ...known
}: AlarmRow): Episode {
  const { evidence, place } = known;
  return { bed, kind, priority, action, subject, raisedAt, clearedAt, evidence, place };
}

/** Whether two are about the same kind of trouble with the same thing, whatever they ask for. */
const isOfOneKind = (
  one: Pick<Episode, 'kind' | 'subject'>,
  other: Pick<Episode, 'kind' | 'subject'>,
): boolean => one.kind === other.kind && one.subject === other.subject;

/** Whether an episode is about the same trouble at about the same time, asking for the same or for more. */
const isAbout = (row: AlarmRow, episode: Episode): boolean =>
  isOfOneKind(row, episode) && Math.abs(row.raisedAt - episode.raisedAt) <= SAME_ALARM_ms;

/** The withdrawn alarm whose place an episode takes, if there is one; it is taken out of the list. */
function takePredecessor(gone: AlarmRow[], episode: Episode): AlarmRow | undefined {
  const index = gone.findIndex((row) => row.action === episode.action && isAbout(row, episode));
  return index < 0 ? undefined : gone.splice(index, 1)[0];
}
