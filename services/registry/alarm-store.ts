/**
 * Alarms at rest. An alarm that later readings show never to have been is marked as withdrawn and no longer
 * listed; its row stays.
 */
import type { Acknowledgement, AlarmState, Episode, Place } from '../core/model/alarm.js';
import type { Database } from './database.js';

export interface AlarmRow extends Episode {
  readonly id: string;
  readonly site: string;
  readonly text: string;
  readonly acknowledgement: Acknowledgement | null;
  readonly withdrawn: boolean;
  readonly told: ToldPlace;
}

/** What people were told of where to dig. It depends on when readings came, as an episode does not. */
export interface ToldPlace {
  /** The place that they were told last; null where they were told none. */
  readonly place: Place | null;
  /** Whether they were told another place after the raising. */
  readonly again: boolean;
}

export interface AlarmFilter {
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

interface Raw {
  id: string;
  site: string;
  bed: string;
  kind: Episode['kind'];
  action: Episode['action'];
  priority: Episode['priority'];
  subject: string;
  raised_at: number;
  cleared_at: number | null;
  evidence: string;
  place: string | null;
  text: string;
  ack_by: string | null;
  ack_note: string | null;
  ack_at: number | null;
  withdrawn: number;
  told_place: string | null;
  told_again: number;
}

/** IEC 62682 states as conditions on a row; `shelved` cannot be yet, and matches none. */
const STATE_CONDITION: Readonly<Record<AlarmState, string>> = {
  unacknowledged: 'cleared_at IS NULL AND ack_at IS NULL',
  acknowledged: 'cleared_at IS NULL AND ack_at IS NOT NULL',
  'returned-unacknowledged': 'cleared_at IS NOT NULL AND ack_at IS NULL',
  normal: 'cleared_at IS NOT NULL AND ack_at IS NOT NULL',
  shelved: '0',
};

const placeFrom = (text: string | null): Place | null => (text === null ? null : JSON.parse(text));
const placeText = (place: Place | null): string | null => (place === null ? null : JSON.stringify(place));

function fromRaw(raw: Raw): AlarmRow {
  const { id, site, bed, kind, action, priority, subject, text } = raw;
  return {
    ...{ id, site, bed, kind, action, priority, subject, text },
    raisedAt: raw.raised_at,
    clearedAt: raw.cleared_at,
    evidence: JSON.parse(raw.evidence),
    place: placeFrom(raw.place),
    acknowledgement:
      raw.ack_at === null ? null : { by: raw.ack_by ?? '', note: raw.ack_note ?? '', at: raw.ack_at },
    withdrawn: raw.withdrawn === 1,
    told: { place: placeFrom(raw.told_place), again: raw.told_again === 1 },
  };
}

export class AlarmStore {
  readonly #database: Database;
  readonly #put;
  readonly #get;
  readonly #open;
  readonly #since;
  readonly #withdraw;
  readonly #acknowledge;
  readonly #noteTold;

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
    const raw = this.#get.get(id) as Raw | undefined;
    return raw && fromRaw(raw);
  }

  /** Open alarms of a bed, newest first. */
  open(bed: string): AlarmRow[] {
    return (this.#open.all(bed) as Raw[]).map(fromRaw);
  }

  /** Alarms that were raised, open or cleared after a time: all that can change when the bed is looked at anew from there. */
  touchedSince(bed: string, time: number): AlarmRow[] {
    return (this.#since.all(bed, time, time) as Raw[]).map(fromRaw);
  }

  withdraw(id: string): void {
    this.#withdraw.run(id);
  }

  /** The first acknowledgement stands: a second changes nothing. */
  acknowledge(id: string, { by, note, at }: Acknowledgement): void {
    this.#acknowledge.run(by, note, at, id);
  }

  noteTold(id: string, { place, again }: ToldPlace): void {
    this.#noteTold.run(placeText(place), again ? 1 : 0, id);
  }

  /** Newest first, at most `limit`, and whether there are more. */
  list(filter: AlarmFilter): { rows: AlarmRow[]; more: boolean } {
    const conditions = ['withdrawn = 0'];
    const values: (string | number)[] = [];
    const where = (condition: string, ...bound: (string | number)[]): void => {
      conditions.push(condition);
      values.push(...bound);
    };
    if (filter.bed !== undefined) where('bed = ?', filter.bed);
    if (filter.state !== undefined) where(STATE_CONDITION[filter.state]);
    if (filter.from !== undefined) where('raised_at >= ?', filter.from);
    if (filter.to !== undefined) where('raised_at < ?', filter.to);
    if (filter.after !== undefined)
      where('(raised_at, id) < (SELECT raised_at, id FROM alarm WHERE id = ?)', filter.after);
    const raws = this.#database
      .prepare(
        `SELECT * FROM alarm WHERE ${conditions.join(' AND ')} ORDER BY raised_at DESC, id DESC LIMIT ?`,
      )
      .all(...values, filter.limit + 1) as Raw[];
    return { rows: raws.slice(0, filter.limit).map(fromRaw), more: raws.length > filter.limit };
  }
}
