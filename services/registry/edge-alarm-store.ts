/** Alarms as edge machines told them of: beside what the centre finds itself, and for what people there answered. */
import type { Acknowledgement } from '../core/model/alarm.js';
import type { Database } from './database.js';

export interface EdgeAlarm {
  readonly id: string;
  readonly site: string;
  readonly bed: string;
  /** As it came. */
  readonly document: string;
  readonly acknowledgement: Acknowledgement | null;
}

/** An answer that the alarm of the same id does not have yet, or that came sooner than the one it has. */
export interface OpenAnswer {
  readonly id: string;
  readonly bed: string;
  readonly acknowledgement: Acknowledgement;
}

export class EdgeAlarmStore {
  readonly #put;
  readonly #count;
  readonly #answers;

  constructor(database: Database) {
    this.#put = database.prepare(
      `INSERT INTO edge_alarm (id, site, bed, document, acknowledgement, received_at) VALUES (?, ?, ?, ?, ?, ?)
       ON CONFLICT (id) DO UPDATE SET document = excluded.document, acknowledgement = excluded.acknowledgement,
         received_at = excluded.received_at`,
    );
    this.#count = database.prepare('SELECT count(*) FROM edge_alarm').pluck();
    this.#answers = database.prepare(
      `SELECT edge.id, alarm.bed, edge.acknowledgement FROM edge_alarm AS edge JOIN alarm USING (id)
       WHERE edge.acknowledgement IS NOT NULL AND alarm.withdrawn = 0
       AND (alarm.ack_at IS NULL OR alarm.ack_at > edge.acknowledgement ->> '$.at') LIMIT ?`,
    );
  }

  /** The newest that was told of an alarm stands. @param receivedAt wall clock, ms */
  put({ id, site, bed, document, acknowledgement }: EdgeAlarm, receivedAt: number): void {
    const answer = acknowledgement && JSON.stringify(acknowledgement);
    this.#put.run(id, site, bed, document, answer, receivedAt);
  }

  count(): number {
    return this.#count.get() as number;
  }

  /** Answers of people at edges that are still to be taken over. */
  openAnswers(most: number): OpenAnswer[] {
    const rows = this.#answers.all(most) as { id: string; bed: string; acknowledgement: string }[];
    return rows.map(({ acknowledgement, ...row }) => ({
      ...row,
      acknowledgement: JSON.parse(acknowledgement) as Acknowledgement,
    }));
  }
}
