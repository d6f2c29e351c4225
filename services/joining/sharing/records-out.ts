/** Sends a centre, through the station's own broker, what was written down and found here: at least once, the oldest first. */
import { alarmDocument } from '../../core/alarms/document.js';
import { formatTime } from '../../core/model/time.js';
import { type Message, recordTopic } from '../../intake/index.js';
import type { Log } from '../../log.js';
import type { DueRecord, Registry } from '../../registry/index.js';
import { asAlarm } from '../alarm-keeper.js';
import { siteForCentre } from './site-for-centre.js';

export interface RecordsOutParts {
  readonly registry: Registry;
  readonly publish: (message: Message) => Promise<void>;
  readonly connected: () => boolean;
  readonly log: Log;
  /** Wall clock, ms. */
  readonly now: () => number;
}

/** Records under way together. */
const AT_ONCE = 32;

/** Longest record, bytes: what a centre takes in one message. */
const MOST_bytes = 512 * 1024;

export class RecordsOut {
  readonly #parts: RecordsOutParts;
  #sending = false;
  #closed = false;

  constructor(parts: RecordsOutParts) {
    this.#parts = parts;
  }

  /** Sends all that waits, unless that is under way already. */
  send(): void {
    if (this.#sending || this.#closed || !this.#parts.connected()) return;
    this.#sending = true;
    void this.#sendAll()
      .catch((error: Error) => {
        if (!this.#closed) this.#parts.log(`records wait for the centre: ${error.message}`, 'records');
      })
      .finally(() => {
        this.#sending = false;
      });
  }

  close(): void {
    this.#closed = true;
  }

  async #sendAll(): Promise<void> {
    const { records } = this.#parts.registry;
    for (;;) {
      const due = records.due(AT_ONCE);
      if (due.length === 0 || this.#closed) return;
      await Promise.all(due.map((record) => this.#sendOne(record)));
      if (this.#closed) return;
      for (const record of due) records.forget(record);
    }
  }

  async #sendOne(record: DueRecord): Promise<void> {
    const message = messageOf(this.#parts.registry, record, this.#parts.now());
    if (message === undefined) return;
    const { length } = Buffer.from(message.payload);
    if (length <= MOST_bytes) await this.#parts.publish(message);
    else
      this.#parts.log(
        `the centre is not sent ${record.kind} ${record.id}: expected at most ${MOST_bytes} bytes, got ${length}; load it there by hand`,
        `record ${record.kind}`,
      );
  }
}

/** Undefined where there is no such record any more. */
function messageOf(registry: Registry, { kind, id }: DueRecord, now: number): Message | undefined {
  if (kind === 'site') {
    const site = registry.sites.descriptions().find((one) => one.site.id === id);
    return site && message(id, kind, siteForCentre(site));
  }
  if (kind === 'inspection') {
    const inspection = registry.inspections.get(id);
    const site = inspection && registry.inspections.siteOf(id);
    if (!inspection || site === undefined) return undefined;
    return message(site, kind, { ...inspection, at: formatTime(inspection.at) });
  }
  const row = registry.alarms.get(id);
  if (!row) return undefined;
  const { acknowledgement, withdrawn } = row;
  const acknowledged = acknowledgement && { ...acknowledgement, at: formatTime(acknowledgement.at) };
  return message(row.site, kind, { ...alarmDocument(asAlarm(row, now)), acknowledged, withdrawn });
}

const message = (site: string, kind: DueRecord['kind'], document: unknown): Message => ({
  ...{ topic: recordTopic({ site, kind }), payload: JSON.stringify(document), qos: 1, retain: false },
});
