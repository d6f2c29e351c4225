/** What the records of telling say. */
import { HOUR_ms } from '../../model/time.js';
import type { AlarmToTell, PersonToTell, ReachWay, TellingInput, ToldRecord } from './types.js';

const wayKey = ({ via, to }: ReachWay): string => `${via} ${to}`;

const isEnd = ({ event }: ToldRecord): boolean => event === 'cleared' || event === 'withdrawn';

/** By time; what became known at one instant ended after it had begun. */
const inOrder = (one: ToldRecord, other: ToldRecord): number =>
  one.at - other.at ||
  Number(isEnd(one)) - Number(isEnd(other)) ||
  (one.message < other.message ? -1 : Number(one.message > other.message));

/** What one person was told of one alarm as it stands. */
export interface Heard {
  /** Tellings of its raising and of its place that count, oldest first. */
  readonly raised: readonly ToldRecord[];
  readonly endTold: boolean;
  /** Ways that can be tried for it now, in order of preference. */
  readonly ways: readonly ReachWay[];
  /** When a way that failed for it may be tried again, ms. */
  readonly retryAt: readonly number[];
}

export class Records {
  readonly #dead: ReadonlySet<string>;
  readonly #byPerson = new Map<string, ToldRecord[]>();
  readonly #byAlarm = new Map<string, Map<string, ToldRecord[]>>();
  readonly #now: number;
  readonly #retry_ms: number;

  constructor({ now, settings, told, deadWays, alarms }: TellingInput) {
    this.#now = now;
    this.#retry_ms = settings.repeat_after_h * HOUR_ms;
    this.#dead = new Set(deadWays.map(wayKey));
    const named = new Map(alarms.flatMap(({ id, formerly }) => (formerly ?? []).map((old) => [old, id])));
    for (const record of [...told].sort(inOrder)) {
      const alarm = named.get(record.alarm) ?? record.alarm;
      const people = this.#byAlarm.get(alarm) ?? new Map<string, ToldRecord[]>();
      this.#byAlarm.set(alarm, people);
      put(people, record.person, record);
      put(this.#byPerson, record.person, record);
    }
  }

  /** Ids of all to whom anything was sent of an alarm, in order. */
  peopleOf(alarm: string): string[] {
    return [...(this.#byAlarm.get(alarm)?.keys() ?? [])].sort();
  }

  /** What failed, or waits on a way by which nothing arrives, does not count as told. */
  counts({ delivered, way }: ToldRecord): boolean {
    return delivered === true || (delivered === null && !this.#dead.has(wayKey(way)));
  }

  /** All that a person was told, oldest first. */
  of(person: string): ToldRecord[] {
    return (this.#byPerson.get(person) ?? []).filter((record) => this.counts(record));
  }

  /** An alarm that is open again after its end was told is told anew. */
  heard(alarm: AlarmToTell, person: PersonToTell): Heard {
    const all = this.#byAlarm.get(alarm.id)?.get(person.id) ?? [];
    const counting = all.filter((record) => this.counts(record));
    const last = counting.findLastIndex(isEnd);
    const current = isOver(alarm) ? counting : counting.slice(last + 1);
    const failed = all.filter(({ delivered, at }) => delivered === false && at > this.#now - this.#retry_ms);
    const untried = new Set(failed.map(({ way }) => wayKey(way)));
    return {
      raised: current.filter((record) => !isEnd(record)),
      // Told that it is over, and not told since that it is back.
      endTold: last >= 0 && last === counting.length - 1,
      ways: person.reach.filter((way) => !this.#dead.has(wayKey(way)) && !untried.has(wayKey(way))),
      retryAt: failed.filter(({ way }) => !this.#dead.has(wayKey(way))).map(({ at }) => at + this.#retry_ms),
    };
  }
}

export const isOver = ({ clearedAt, withdrawn }: AlarmToTell): boolean => clearedAt !== null || withdrawn;

function put(map: Map<string, ToldRecord[]>, key: string, record: ToldRecord): void {
  const list = map.get(key);
  if (list) list.push(record);
  else map.set(key, [record]);
}
