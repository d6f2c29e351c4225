/**
 * Alarms at rest. An alarm that later readings show never to have been is marked as withdrawn and no longer
 * listed; its row stays.
 */
import type { Acknowledgement, AlarmState, Episode, Shelving } from '../core/model/alarm.js';
import { type AlarmRow, fromRaw, placeText, type RawAlarm, type ToldPlace } from './alarm-row.js';
import type { Database } from './database.js';

export interface AlarmFilter {
  /** Wall clock, ms: what is shelved by then; nothing is where absent. */
  readonly now?: number | undefined;
  readonly bed?: string | undefined;
  readonly state?: AlarmState | undefined;
  /** Raised at or after. */
  readonly from?: number | undefined;
  /** Raised before. */
  readonly to?: number | undefined;
  readonly limit: number;
  /** Only alarms behind this one in the order newest first. */
  readonly after?: string | undefined;
}

/** With the wall clock as its one value. */
const SHELVED = '(shelved_until IS NOT NULL AND shelved_until > @now)';

/** IEC 62682 states as conditions on a row. */
const STATE_CONDITION: Readonly<Record<AlarmState, string>> = {
  unacknowledged: `cleared_at IS NULL AND ack_at IS NULL AND NOT ${SHELVED}`,
  acknowledged: `cleared_at IS NULL AND ack_at IS NOT NULL AND NOT ${SHELVED}`,
  'returned-unacknowledged': 'cleared_at IS NOT NULL AND ack_at IS NULL',
  normal: 'cleared_at IS NOT NULL AND ack_at IS NOT NULL',
  shelved: `cleared_at IS NULL AND ${SHELVED}`,
};

export class AlarmStore {
  readonly #database: Database;
  readonly #put;
  readonly #get;
  readonly #open;
  readonly #since;
  readonly #withdraw;
  readonly #acknowledge;
  readonly #noteTold;
  readonly #shelve;
  readonly #setNumber;
  readonly #noteKnown;
  readonly #noteEnd;
  readonly #noteMoved;
  readonly #noteFormerly;
  readonly #toTell;
  readonly #numbers;
  readonly #unacknowledge;
  readonly #successor;
  readonly #lastOver;

  constructor(database: Database) {
    this.#database = database;
    this.#put = database.prepare(
      `INSERT INTO alarm (id, site, bed, kind, action, priority, subject, raised_at, cleared_at, evidence, place, text)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
       ON CONFLICT (id) DO UPDATE SET priority = excluded.priority, cleared_at = excluded.cleared_at,
         evidence = excluded.evidence, place = excluded.place, text = excluded.text, withdrawn = 0`,
    );
    this.#get = database.prepare('SELECT * FROM alarm WHERE id = ?');
    this.#open = database.prepare(
      'SELECT * FROM alarm WHERE bed = ? AND cleared_at IS NULL AND withdrawn = 0 ORDER BY raised_at DESC, id DESC',
    );
    this.#since = database.prepare(
      `SELECT * FROM alarm WHERE bed = ? AND withdrawn = 0 AND (raised_at > ? OR cleared_at IS NULL OR cleared_at > ?)
       ORDER BY raised_at, id`,
    );
    this.#withdraw = database.prepare('UPDATE alarm SET withdrawn = 1 WHERE id = ?');
    this.#acknowledge = database.prepare(
      'UPDATE alarm SET ack_by = ?, ack_note = ?, ack_at = ? WHERE id = ? AND ack_at IS NULL',
    );
    this.#shelve = database.prepare(
      'UPDATE alarm SET shelved_by = ?, shelved_at = ?, shelved_until = ? WHERE id = ?',
    );
    this.#noteKnown = database.prepare('UPDATE alarm SET known_at = coalesce(known_at, ?) WHERE id = ?');
    this.#noteEnd = database.prepare('UPDATE alarm SET end_known_at = ?, end_known = ? WHERE id = ?');
    this.#noteMoved = database.prepare('UPDATE alarm SET moved_at = ? WHERE id = ?');
    this.#noteFormerly = database.prepare('UPDATE alarm SET formerly = ? WHERE id = ?');
    this.#toTell = database.prepare(
      `SELECT * FROM alarm WHERE site = ? AND known_at IS NOT NULL AND
       ((withdrawn = 0 AND cleared_at IS NULL) OR end_known_at >= ?) ORDER BY raised_at, id`,
    );
    this.#setNumber = database.prepare('UPDATE alarm SET number = ? WHERE id = ?');
    this.#numbers = database
      .prepare(
        `SELECT number FROM alarm WHERE id <> ? AND number IS NOT NULL AND
         ((cleared_at IS NULL AND withdrawn = 0) OR end_known_at >= ?)`,
      )
      .pluck();
    this.#unacknowledge = database.prepare(
      'UPDATE alarm SET ack_by = NULL, ack_note = NULL, ack_at = NULL WHERE id = ?',
    );
    this.#successor = database
      .prepare(
        `SELECT id FROM alarm WHERE bed = ? AND withdrawn = 0 AND
         EXISTS (SELECT 1 FROM json_each(formerly) WHERE value = ?) ORDER BY raised_at DESC LIMIT 1`,
      )
      .pluck();
    this.#lastOver = database
      .prepare("SELECT max(cleared_at) FROM alarm WHERE bed = ? AND withdrawn = 0 AND action <> 'none'")
      .pluck();
    this.#noteTold = database.prepare('UPDATE alarm SET told_place = ?, told_again = ? WHERE id = ?');
  }

  /** Writes an alarm as the watch now sees it; what people did with it stays. */
  put(id: string, site: string, episode: Episode, text: string): void {
    const { bed, kind, action, priority, subject, raisedAt, clearedAt } = episode;
    const evidence = JSON.stringify(episode.evidence);
    const place = placeText(episode.place);
    this.#put.run(
      ...[id, site, bed, kind, action, priority, subject, raisedAt, clearedAt, evidence, place, text],
    );
  }

  get(id: string): AlarmRow | undefined {
    const raw = this.#get.get(id) as RawAlarm | undefined;
    return raw && fromRaw(raw);
  }

  /** Open alarms of a bed, newest first. */
  open(bed: string): AlarmRow[] {
    return (this.#open.all(bed) as RawAlarm[]).map(fromRaw);
  }

  /** When the last of a bed's alarms that asked for something was over, event time, ms; undefined where none ever was. */
  lastOver(bed: string): number | undefined {
    return (this.#lastOver.get(bed) as number | null) ?? undefined;
  }

  /** Alarms that were raised, open or cleared after a time: all that can change when the bed is looked at anew from there. */
  touchedSince(bed: string, time: number): AlarmRow[] {
    return (this.#since.all(bed, time, time) as RawAlarm[]).map(fromRaw);
  }

  withdraw(id: string): void {
    this.#withdraw.run(id);
  }

  /** The first acknowledgement stands: a second changes nothing. */
  acknowledge(id: string, { by, note, at }: Acknowledgement): void {
    this.#acknowledge.run(by, note, at, id);
  }

  shelve(id: string, { by, at, until }: Shelving): void {
    this.#shelve.run(by, at, until, id);
  }

  /** Wall clock, ms, of what became known. The first time of a raising stands. */
  noteKnown(id: string, at: number): void {
    this.#noteKnown.run(at, id);
  }

  /** @param at null where it lasts after all */
  noteEnd(id: string, at: number | null, known: boolean): void {
    this.#noteEnd.run(at, Number(known), id);
  }

  noteMoved(id: string, at: number): void {
    this.#noteMoved.run(at, id);
  }

  noteFormerly(id: string, ids: readonly string[]): void {
    this.#noteFormerly.run(JSON.stringify(ids), id);
  }

  /** Those of a site that are open, and those whose end (or withdrawal) became known since. */
  toTell(site: string, since: number): AlarmRow[] {
    return (this.#toTell.all(site, since) as RawAlarm[]).map(fromRaw);
  }

  /** Nobody knows of it any more: it is to be acknowledged anew. */
  unacknowledge(id: string): void {
    this.#unacknowledge.run(id);
  }

  /** The alarm itself, or the one that people take for it now that it is withdrawn. */
  standingFor(id: string): AlarmRow | undefined {
    const row = this.get(id);
    if (!row?.withdrawn) return row;
    const successor = this.#successor.get(row.bed, id) as string | undefined;
    return successor === undefined ? row : this.get(successor);
  }

  noteNumber(id: string, number: number | null): void {
    this.#setNumber.run(number, id);
  }

  /**
   * The number by which people name an alarm: the smallest that no other has, over all sites, since one telephone may
   * be told of several.
   *
   * @param endedSince wall clock, ms: alarms whose end became known since keep theirs, for answers that come late
   */
  numberOf(id: string, endedSince: number): number {
    const taken = new Set(this.#numbers.all(id, endedSince) as number[]);
    const known = this.get(id)?.number ?? undefined;
    if (known !== undefined && !taken.has(known)) return known;
    let number = 1;
    while (taken.has(number)) number += 1;
    this.#setNumber.run(number, id);
    return number;
  }

  noteTold(id: string, { place, again }: ToldPlace): void {
    this.#noteTold.run(placeText(place), again ? 1 : 0, id);
  }

  /** Newest first, at most `limit`, and whether there are more. */
  list(filter: AlarmFilter): { rows: AlarmRow[]; more: boolean } {
    const { bed, state, from, to, after, limit, now = Number.MAX_SAFE_INTEGER } = filter;
    const conditions = ['withdrawn = 0'];
    if (bed !== undefined) conditions.push('bed = @bed');
    if (state !== undefined) conditions.push(STATE_CONDITION[state]);
    if (from !== undefined) conditions.push('raised_at >= @from');
    if (to !== undefined) conditions.push('raised_at < @to');
    if (after !== undefined)
      conditions.push('(raised_at, id) < (SELECT raised_at, id FROM alarm WHERE id = @after)');
    const raws = this.#database
      .prepare(
        `SELECT * FROM alarm WHERE ${conditions.join(' AND ')} ORDER BY raised_at DESC, id DESC LIMIT @most`,
      )
      .all({ bed, from, to, after, now, most: limit + 1 }) as RawAlarm[];
    return { rows: raws.slice(0, filter.limit).map(fromRaw), more: raws.length > filter.limit };
  }
}
