/**
 * Gathers messages and hands them on in groups: one commit for many messages, and only then their
 * acknowledgements.
 *
 * A group is committed when it is full, when its first message has waited long enough, or as soon as the event
 * loop has turned twice with nothing new: so a single message is acknowledged at once, and a stream is grouped by
 * its own pressure. Where the commit fails nothing is acknowledged; the same messages are tried again, later and
 * later, until the store is back.
 */
import { COLLECTOR_LIMITS, type CollectorLimits } from './limits.js';
import type { Acknowledge, Incoming, Sink } from './ports.js';

/** What passes time: given from outside so that tests need not wait. */
export interface Timing {
  readonly setTimeout: (run: () => void, delay_ms: number) => unknown;
  readonly clearTimeout: (timer: unknown) => void;
  readonly setImmediate: (run: () => void) => unknown;
}

export interface CollectorOptions {
  /** Keeps a group durably or throws; nothing of a group that it threw for may remain. */
  readonly commit: (group: readonly Incoming[]) => void;
  /** Told of each failed commit, and of an acknowledgement that threw. */
  readonly onFailure?: (error: unknown) => void;
  readonly limits?: Partial<CollectorLimits>;
  readonly timing?: Timing;
}

export interface CollectorCounts {
  readonly accepted: number;
  readonly committed: number;
  readonly groups: number;
  readonly failedCommits: number;
  /** Messages for which there was no room. */
  readonly dropped: number;
  readonly waiting: number;
  readonly waiting_bytes: number;
}

interface Waiting {
  readonly message: Incoming;
  readonly acknowledge: Acknowledge;
}

/** Turns of the event loop without a new message after which a group is committed. */
const IDLE_TURNS = 2;

const REAL_TIMING: Timing = {
  setTimeout: (run, delay_ms) => setTimeout(run, delay_ms),
  clearTimeout: (timer) => clearTimeout(timer as NodeJS.Timeout),
  setImmediate: (run) => setImmediate(run),
};

export class Collector implements Sink {
  readonly #commit: (group: readonly Incoming[]) => void;
  readonly #onFailure: (error: unknown) => void;
  readonly #limits: CollectorLimits;
  readonly #timing: Timing;
  #waiting: Waiting[] = [];
  #bytes = 0;
  #closed = false;
  #committing = false;
  /** Set while a group waits for its time, or a failed one for its next try. */
  #timer: unknown;
  /** Pause before the next try, ms; 0 while the store works. */
  #pause_ms = 0;
  #watchingTurns = false;
  #counts = { accepted: 0, committed: 0, groups: 0, failedCommits: 0, dropped: 0 };

  constructor({ commit, onFailure, limits, timing }: CollectorOptions) {
    this.#commit = commit;
    this.#onFailure = onFailure ?? (() => {});
    this.#limits = { ...COLLECTOR_LIMITS, ...limits };
    this.#timing = timing ?? REAL_TIMING;
  }

  accept(message: Incoming, acknowledge: Acknowledge): boolean {
    if (this.#closed || !this.#hasRoom(message)) {
      this.#counts.dropped += 1;
      return false;
    }
    this.#waiting.push({ message, acknowledge });
    this.#bytes += message.payload.length;
    this.#counts.accepted += 1;
    if (this.#pause_ms > 0 || this.#committing) return true;
    if (this.#isFull) this.#commitAll();
    else this.#schedule();
    return true;
  }

  /** True while the store fails: nothing is acknowledged until a commit succeeds. */
  get failing(): boolean {
    return this.#pause_ms > 0;
  }

  get counts(): CollectorCounts {
    return { ...this.#counts, waiting: this.#waiting.length, waiting_bytes: this.#bytes };
  }

  /** Commits what waits, without waiting for the rest of its group. */
  flush(): void {
    if (!this.#committing) this.#commitAll();
  }

  /** Commits what waits, once, and takes nothing more. What could not be committed stays unacknowledged. */
  close(): void {
    if (this.#closed) return;
    this.#closed = true;
    this.flush();
    this.#stopTimer();
  }

  #hasRoom({ payload }: Incoming): boolean {
    const { waiting_messages, waiting_bytes } = this.#limits;
    return this.#waiting.length < waiting_messages && this.#bytes + payload.length <= waiting_bytes;
  }

  get #isFull(): boolean {
    const { group_messages, group_bytes } = this.#limits;
    return this.#waiting.length >= group_messages || this.#bytes >= group_bytes;
  }

  #schedule(): void {
    this.#timer ??= this.#timing.setTimeout(() => this.flush(), this.#limits.group_ms);
    if (!this.#watchingTurns) this.#watchTurns(this.#counts.accepted, 0);
  }

  #watchTurns(acceptedBefore: number, idleTurns: number): void {
    this.#watchingTurns = true;
    this.#timing.setImmediate(() => {
      this.#watchingTurns = false;
      if (this.#waiting.length === 0 || this.#pause_ms > 0) return;
      const { accepted } = this.#counts;
      const idle = accepted === acceptedBefore ? idleTurns + 1 : 0;
      if (idle >= IDLE_TURNS) this.flush();
      else this.#watchTurns(accepted, idle);
    });
  }

  #commitAll(): void {
    this.#stopTimer();
    this.#committing = true;
    try {
      while (this.#waiting.length > 0 && this.#commitGroup());
    } finally {
      this.#committing = false;
    }
  }

  /** @returns false where the commit failed and another try is due */
  #commitGroup(): boolean {
    const group = this.#waiting.slice(0, this.#limits.group_messages);
    try {
      this.#commit(group.map(({ message }) => message));
    } catch (error) {
      this.#retryLater(error);
      return false;
    }
    this.#pause_ms = 0;
    this.#waiting = this.#waiting.slice(group.length);
    this.#counts.groups += 1;
    this.#counts.committed += group.length;
    for (const { message, acknowledge } of group) {
      this.#bytes -= message.payload.length;
      this.#tell(acknowledge);
    }
    return true;
  }

  #tell(acknowledge: Acknowledge): void {
    try {
      acknowledge();
    } catch (error) {
      this.#onFailure(error);
    }
  }

  #retryLater(error: unknown): void {
    const { retryFirst_ms, retryLongest_ms } = this.#limits;
    this.#counts.failedCommits += 1;
    this.#pause_ms = Math.min(this.#pause_ms === 0 ? retryFirst_ms : this.#pause_ms * 2, retryLongest_ms);
    this.#timer = this.#closed ? undefined : this.#timing.setTimeout(() => this.flush(), this.#pause_ms);
    this.#onFailure(error);
  }

  #stopTimer(): void {
    if (this.#timer !== undefined) this.#timing.clearTimeout(this.#timer);
    this.#timer = undefined;
  }
}
