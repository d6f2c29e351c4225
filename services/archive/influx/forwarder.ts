/**
 * Empties the spool into the long archive, the oldest first, for as long as the service runs.
 *
 * One batch is on its way while the next is read, so that neither side waits for the other; memory holds these and a few before. A
 * batch leaves the spool only after the server has said that it keeps it, so a crash sends it again, which does no harm.
 */
import type { Failure } from './failure.js';
import { Lines, type NameOf } from './lines.js';
import { type Refused, ServerTrouble, send, type Write } from './sending.js';
import type { Backlog, SpooledReading } from './spool-store.js';
import { waitAfter_ms } from './waits.js';

/** Readings of one request: about 400 KB of lines. */
export const BATCH_readings = 5_000;

/** Between looks at a spool that is empty, or nearly, ms: readings go in groups, not one by one. */
const LINGER_ms = 1_000;

export interface SpoolPort {
  batch(after: number, most: number): SpooledReading[];
  forget(from: number, to: number): void;
  backlog(): Backlog;
}

export interface ForwarderParts {
  readonly spool: SpoolPort;
  readonly nameOf: NameOf;
  readonly write: Write;
  /** Runs the work in one transaction. */
  readonly inTransaction: (work: () => void) => void;
  /** Keeps a reading that the server will never take, with what the server said. */
  readonly setAside: (refused: Refused) => void;
  /** Told of trouble, and of what was set aside. */
  readonly log: (line: string, kind: 'forwarding' | 'refused') => void;
  /** Told how many of a batch were forwarded and how many were refused. */
  readonly onForwarded?: (readings: number, refused: number) => void;
  /** Told of each attempt that failed. */
  readonly onFailed?: () => void;
  readonly after: (delay_ms: number, call: () => void) => () => void;
  /** Wall clock, ms. */
  readonly now: () => number;
  readonly random?: () => number;
}

export interface ForwarderState extends Backlog {
  /** Set aside since the start. */
  readonly refused: number;
  /** When the last was set aside, wall clock, ms. */
  readonly refusedAt: number | null;
  /** The last trouble; null where there was none since the start. */
  readonly lastError: { readonly at: number; readonly reason: string } | null;
  /** Trouble since the last batch went through: the server must be seen to, or may come back by itself. */
  readonly trouble: Pick<Failure, 'standing' | 'reason'> | null;
}

/** Batches that leave the spool in one transaction: each is a sync of the disk. They are kept in memory until then. */
const TOGETHER_batches = 4;

interface Taken {
  readonly batch: Batch;
  readonly refused: readonly Refused[];
}

interface Batch {
  readonly readings: readonly SpooledReading[];
  readonly lines: string;
}

export class Forwarder {
  readonly #parts: ForwarderParts;
  readonly #lines: Lines;
  readonly #ended: Promise<void>;
  #closed = false;
  #wake: (() => void) | undefined;
  /** Attempts that failed since the last that did not. */
  #failed = 0;
  #refused = 0;
  #refusedAt: number | null = null;
  #lastError: ForwarderState['lastError'] = null;
  #trouble: ForwarderState['trouble'] = null;

  /** Begins at once. */
  constructor(parts: ForwarderParts) {
    this.#parts = parts;
    this.#lines = new Lines(parts.nameOf);
    this.#ended = this.#run();
  }

  state(): ForwarderState {
    return {
      ...this.#parts.spool.backlog(),
      refused: this.#refused,
      refusedAt: this.#refusedAt,
      lastError: this.#lastError,
      trouble: this.#trouble,
    };
  }

  /** Ends after what is on its way has come to an end: end that first. */
  async close(): Promise<void> {
    this.#closed = true;
    this.#wake?.();
    await this.#ended;
  }

  async #run(): Promise<void> {
    while (!this.#closed) {
      try {
        await this.#drain();
        await this.#pause(LINGER_ms);
      } catch (error) {
        if (this.#closed) return;
        this.#note(error);
        await this.#pause(waitAfter_ms(this.#failed, this.#random()));
      }
    }
  }

  /** Sends until less than a whole batch waits. What was taken leaves the spool a few batches at a time. */
  async #drain(): Promise<void> {
    let taken: Taken[] = [];
    let batch = this.#read(0);
    let sending = batch && this.#send(batch);
    try {
      while (batch && sending && !this.#closed) {
        await underWay();
        const next = batch.readings.length < BATCH_readings ? undefined : this.#read(lastOf(batch));
        taken.push({ batch, refused: await sending });
        sending = next && this.#send(next);
        batch = next;
        if (next && taken.length < TOGETHER_batches) continue;
        const settled = taken;
        taken = [];
        this.#settle(settled);
      }
      // On closing what is on its way must not fail unseen.
      await sending;
    } finally {
      if (taken.length > 0) this.#settle(taken);
    }
  }

  #send({ readings, lines }: Batch): Promise<Refused[]> {
    const sending = send(this.#parts.write, (some) => this.#lines.of(some), readings, lines);
    // It may fail while the batch before is settled: it is waited for after that.
    sending.catch(() => undefined);
    return sending;
  }

  #read(after: number): Batch | undefined {
    const readings = this.#parts.spool.batch(after, BATCH_readings);
    return readings.length === 0 ? undefined : { readings, lines: this.#lines.of(readings) };
  }

  #settle(taken: readonly Taken[]): void {
    const { spool, inTransaction, setAside, log, onForwarded, now } = this.#parts;
    const refused = taken.flatMap((one) => one.refused);
    const readings = taken.reduce((sum, { batch }) => sum + batch.readings.length, 0);
    inTransaction(() => {
      for (const one of refused) setAside(one);
      for (const { batch } of taken) spool.forget(batch.readings[0]?.[0] ?? 0, lastOf(batch));
    });
    this.#failed = 0;
    this.#trouble = null;
    onForwarded?.(readings - refused.length, refused.length);
    if (refused.length === 0) return;
    this.#refused += refused.length;
    this.#refusedAt = now();
    log(
      `the long archive refused ${refused.length} readings: ${refused[0]?.reason}: see /api/quarantine`,
      'refused',
    );
  }

  #note(error: unknown): void {
    const reason = error instanceof Error ? error.message : String(error);
    const { spool, log, now, onFailed } = this.#parts;
    this.#failed += 1;
    onFailed?.();
    this.#lastError = { at: now(), reason };
    this.#trouble = { reason, standing: error instanceof ServerTrouble && error.standing };
    log(`the long archive takes no readings, ${waitingOf(spool)} wait: ${reason}`, 'forwarding');
  }

  #random(): number {
    return (this.#parts.random ?? Math.random)();
  }

  #pause(delay_ms: number): Promise<void> {
    return new Promise((resolve) => {
      if (this.#closed) return resolve();
      const cancel = this.#parts.after(delay_ms, resolve);
      this.#wake = () => {
        cancel();
        resolve();
      };
    });
  }
}

/** Reading holds up the event loop, which writes the request only at its next turn. */
const underWay = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

const lastOf = ({ readings }: Batch): number => readings.at(-1)?.[0] ?? 0;

/** The spool itself may be what fails. */
function waitingOf(spool: SpoolPort): string {
  try {
    return String(spool.backlog().waiting);
  } catch {
    return 'some';
  }
}
