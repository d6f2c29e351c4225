/**
 * From messages as they arrived to rows at rest and all that follows from them, in one transaction.
 */
import { MOST_PROBES_APART, MOST_ROWS_APART, type Put, type Values } from '../archive/index.js';
import { formatTime } from '../core/model/time.js';
import { type Incoming, type Measured, parseRecordTopic, type ReadMessage } from '../intake/index.js';
import type { KnownProbe } from './directory.js';
import { APART_FULL, beforePlacement, valueConflict } from './set-aside-words.js';
import { RECORD_UNFIT, type RecordsIn } from './sharing/records-in.js';
import type { Station } from './station.js';

/** Sorts a message into what can be stored and what cannot; never throws. */
export type Reader = (incoming: Incoming) => ReadMessage;

/** Counts of one batch. */
export interface Taken {
  messages: number;
  kept: number;
  duplicates: number;
  apart: number;
  setAside: Map<string, number>;
}

/** One probe's values at one time, from elsewhere than a message. */
export interface ForeignRow {
  readonly probe: string;
  readonly time: number;
  readonly values: Values;
}

/** Where rows came from. */
export interface ForeignSource<Row> {
  readonly site: string;
  /** What the quarantine calls it. */
  readonly topic: string;
  /** Wall clock, ms. */
  readonly at: number;
  /** Told of what of a row is set aside. */
  readonly heard: (row: Row, reason: string, detail: string) => void;
}

export class TakeIn {
  readonly #station: Station;
  readonly #read: Reader;
  readonly #records: RecordsIn | undefined;
  #apart: { rows: number; probes: number };
  #taken: Taken = nothing();
  #heard: ((reason: string, detail: string) => void) | undefined;

  /** @param records takes in what edge machines tell a centre; elsewhere such topics are unknown */
  constructor(station: Station, read: Reader, records?: RecordsIn) {
    this.#station = station;
    this.#read = read;
    this.#records = records;
    this.#apart = station.archive.apart.size();
  }

  /** Takes in a batch; throws where the store fails, and then nothing of it is kept. */
  commit(batch: readonly Incoming[]): Taken {
    return this.#counted(() =>
      this.#station.inTransaction(() => {
        for (const incoming of batch) this.#take(incoming);
      }),
    );
  }

  /**
   * Takes in rows of the past by the rules of messages; what follows from them is judged later.
   *
   * @param alongside what is written in the same transaction, with the counts of these rows
   */
  commitPast<Row extends ForeignRow>(
    rows: readonly Row[],
    { site, topic, at, heard }: ForeignSource<Row>,
    alongside: (taken: Taken) => void,
  ): Taken {
    const from = { topic, receivedAt: at };
    let row: Row | undefined;
    this.#heard = (reason, detail) => row && heard(row, reason, detail);
    const work = (): void => {
      for (row of rows) {
        const known = this.#station.directory.find(site, row.probe);
        if (known) this.keep(known, row.time, row.values, topic, at);
        else this.#keepApart({ site, probe: row.probe }, row.time, row.values, from);
      }
      alongside(this.#taken);
    };
    return this.#counted(() => this.#station.inTransaction(work, { judged: 'later' }));
  }

  #counted(work: () => void): Taken {
    const apart = this.#apart;
    this.#taken = nothing();
    try {
      work();
    } catch (error) {
      this.#apart = apart;
      throw error;
    } finally {
      this.#heard = undefined;
    }
    return this.#taken;
  }

  #take(incoming: Incoming): void {
    this.#taken.messages += 1;
    if (this.#records && this.#takeRecord(this.#records, incoming)) return;
    const message = this.#read(incoming);
    for (const { reason, detail } of message.setAside)
      this.#setAside(reason, incoming.topic, detail, incoming.payload, incoming.receivedAt);
    if (message.kind === 'status' && message.online !== undefined) this.#status(message, incoming.receivedAt);
    if (message.measured.length === 0) return;
    const known = this.#station.directory.find(message.site, message.probe);
    for (const { time, values } of byTime(message.measured)) {
      if (!known) this.#keepApart(message, time, values, incoming);
      else this.keep(known, time, values, incoming.topic, incoming.receivedAt);
    }
  }

  /** @returns whether it is a record, taken in or set aside */
  #takeRecord(records: RecordsIn, { topic, payload, receivedAt }: Incoming): boolean {
    const record = parseRecordTopic(topic);
    if (!record) return false;
    const problem = records.take(record, payload);
    if (problem !== undefined) this.#setAside(RECORD_UNFIT, topic, problem, payload, receivedAt);
    return true;
  }

  /** Keeps one probe's values at one time, where they belong. */
  keep(known: KnownProbe, time: number, values: Values, topic: string, at: number): void {
    const first = known.stays[0];
    const benchSince = this.#station.benchSince(known.site, known.probe.id) ?? Number.POSITIVE_INFINITY;
    // A probe on the shelf, or a travelling reference, has no placement: whatever it measures is kept.
    if (first && !(time >= Math.min(first.from, benchSince))) {
      this.#setAside(
        'before-placement',
        topic,
        beforePlacement(first.from, time),
        sampleOf(time, values),
        at,
      );
      return;
    }
    const put = this.#station.archive.readings.put(known.key, time, values);
    this.#count(put, topic, time, at);
    if (put.kept === 0) return;
    this.#station.noteReading(known, time);
    if (Number.isFinite(benchSince)) this.#station.changes.whole('bench');
  }

  /** Counts what is kept apart anew, after some of it was adopted. */
  recountApart(): void {
    this.#apart = this.#station.archive.apart.size();
  }

  #count(put: Put, topic: string, time: number, at: number): void {
    this.#taken.kept += put.kept;
    this.#taken.duplicates += put.duplicates;
    for (const { quantity, kept, refused } of put.conflicts) {
      const detail = valueConflict(quantity, kept, refused, time);
      this.#setAside('value-conflict', topic, detail, sampleOf(time, { [quantity]: refused }), at);
    }
  }

  #keepApart(
    { site, probe }: Pick<ReadMessage, 'site' | 'probe'>,
    time: number,
    values: Values,
    incoming: Pick<Incoming, 'topic' | 'receivedAt'>,
  ): void {
    const { keys, apartReadings } = this.#station.archive;
    const isNew = keys.find(site, probe) === undefined;
    if (this.#apart.rows >= MOST_ROWS_APART || (isNew && this.#apart.probes >= MOST_PROBES_APART)) {
      this.#setAside('apart-full', incoming.topic, APART_FULL, sampleOf(time, values), incoming.receivedAt);
      return;
    }
    const put = apartReadings.put(keys.keyOf(site, probe), time, values);
    this.#taken.apart += put.kept;
    this.#taken.duplicates += put.duplicates;
    if (isNew) this.#station.changes.whole('probes');
    if (this.#station.benchSince(site, probe) !== undefined) this.#station.changes.whole('bench');
    if (put.kept > 0)
      this.#apart = { rows: this.#apart.rows + 1, probes: this.#apart.probes + (isNew ? 1 : 0) };
    for (const { quantity, kept, refused } of put.conflicts)
      this.#setAside(
        'value-conflict',
        incoming.topic,
        valueConflict(quantity, kept, refused, time),
        sampleOf(time, { [quantity]: refused }),
        incoming.receivedAt,
      );
  }

  #status({ site, probe, online }: ReadMessage, at: number): void {
    const known = this.#station.directory.find(site, probe);
    if (!known || online === undefined) return;
    this.#station.archive.status.set(known.key, online, at);
    this.#station.changes.whole('probes');
  }

  #setAside(reason: string, topic: string, detail: string, payload: Uint8Array, at: number): void {
    this.#taken.setAside.set(reason, (this.#taken.setAside.get(reason) ?? 0) + 1);
    this.#station.archive.quarantine.add(reason, topic, detail, payload, at);
    this.#heard?.(reason, detail);
  }
}

const nothing = (): Taken => ({ messages: 0, kept: 0, duplicates: 0, apart: 0, setAside: new Map() });

const sampleOf = (time: number, values: Values): Uint8Array =>
  Buffer.from(JSON.stringify({ time: formatTime(time), ...values }));

/** Values of one time together. Records of one time mostly follow each other; where not, the store merges them. */
function byTime(measured: readonly Measured[]): { time: number; values: Values }[] {
  const groups: { time: number; values: Values }[] = [];
  let group: { time: number; values: Values } | undefined;
  for (const { quantity, time, value } of measured) {
    if (group?.time !== time || group.values[quantity] !== undefined) {
      group = { time, values: {} };
      groups.push(group);
    }
    group.values[quantity] = value;
  }
  return groups;
}
