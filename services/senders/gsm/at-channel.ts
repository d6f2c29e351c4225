/**
 * A serial line on which commands are given one at a time: ITU-T V.250, 3GPP TS 27.005 and 27.007.
 *
 * Everything that the modem writes is taken as it comes: with or without echo, with noise, in pieces, with messages
 * unasked for in the middle of an answer. Lines that nobody waits for are dropped.
 */
import type { Duplex } from 'node:stream';
import type { Timer } from '../ports.js';
import { AtError, commandName, refusal } from './at-error.js';
import { AtLines } from './at-lines.js';
import { isPdu, type Sorted, sortUnsolicited, type Unsolicited, withCentre } from './unsolicited.js';

export interface AtLimits {
  /** For the final result of a command, ms. */
  readonly answer_ms: number;
  /** For the prompt before a message, ms. */
  readonly prompt_ms: number;
  /** For the network to accept a message after its text was written, ms: makers name 60 s (common practice). */
  readonly accept_ms: number;
  /** For the answer to a bare AT, ms. */
  readonly wake_ms: number;
  /** Bare ATs until a modem counts as hung. */
  readonly wakes: number;
  /** Commands that wait: bounds memory. */
  readonly queue: number;
  /** Lines of an answer that are kept: bounds memory. A list that is cut is asked for again. */
  readonly answer_lines: number;
}

export const AT_LIMITS: AtLimits = {
  answer_ms: 10_000,
  prompt_ms: 10_000,
  accept_ms: 60_000,
  wake_ms: 1500,
  wakes: 4,
  queue: 64,
  answer_lines: 600,
};

export interface Asking {
  /** Begin of a line without which OK is not the end: it is that of an earlier command, come late. */
  readonly expect?: string;
  /** Written after the prompt and ended with Ctrl-Z. */
  readonly message?: string;
  readonly answer_ms?: number;
  /** Ends a text that the modem may be waiting for. */
  readonly escape?: boolean;
}

interface Job extends Asking {
  readonly command: string;
  readonly lines: string[];
  readonly resolve: (lines: readonly string[]) => void;
  readonly reject: (error: AtError) => void;
  prompted: boolean;
  cancel: () => void;
}

export interface AtChannelOptions {
  readonly port: Duplex;
  readonly timer: Timer;
  readonly onUnsolicited: (event: Unsolicited) => void;
  readonly limits?: Partial<AtLimits>;
}

const CTRL_Z = '\x1a';
const ESC = '\x1b';

/** Final results: V.250 section 5.7.1, and one that some makers write in the place of ERROR (common practice). */
const OK = /^OK$/;
const REFUSED = /^(?:ERROR|\+CM[ES] ERROR:.*|NO CARRIER|COMMAND NOT SUPPORT)$/i;

export class AtChannel {
  readonly limits: AtLimits;
  /** Resolves when the port is gone. */
  readonly closed: Promise<void>;
  readonly #port: Duplex;
  readonly #timer: Timer;
  readonly #onUnsolicited: (event: Unsolicited) => void;
  readonly #lines = new AtLines();
  readonly #queue: Job[] = [];
  #job: Job | undefined;
  #heading: (Sorted & { type: 'heading' }) | undefined;
  #isClosed = false;
  #resolveClosed: () => void = () => undefined;

  constructor({ port, timer, onUnsolicited, limits }: AtChannelOptions) {
    this.limits = Object.freeze({ ...AT_LIMITS, ...limits });
    this.#port = port;
    this.#timer = timer;
    this.#onUnsolicited = onUnsolicited;
    this.closed = new Promise((resolve) => {
      this.#resolveClosed = resolve;
    });
    port.on('data', (chunk: Uint8Array) => this.#take(chunk));
    for (const event of ['error', 'end', 'close']) port.on(event, () => this.close());
  }

  /**
   * Gives a command and waits for its end.
   *
   * @returns the lines of the answer, without echo and final result
   * @throws AtError refused, silent, closed or busy
   */
  command(command: string, asking: Asking = {}): Promise<readonly string[]> {
    return new Promise((resolve, reject) => {
      const job: Job = {
        ...asking,
        command,
        lines: [],
        resolve,
        reject,
        prompted: false,
        cancel: () => undefined,
      };
      if (this.#isClosed) {
        reject(closedError(command));
        return;
      }
      if (this.#queue.length >= this.limits.queue) {
        reject(
          new AtError('LIMIT_EXCEEDED', `modem: expected at most ${this.limits.queue} commands to wait`, {
            failure: 'busy',
          }),
        );
        return;
      }
      this.#queue.push(job);
      // Not within a chunk that is being read: its rest belongs to an earlier command.
      queueMicrotask(() => this.#next());
    });
  }

  /**
   * Ends whatever the modem waits for, and asks until it answers.
   *
   * @returns false where it does not
   * @throws AtError closed
   */
  async wake(): Promise<boolean> {
    for (let count = 0; count < this.limits.wakes; count += 1) {
      try {
        await this.command('AT', { answer_ms: this.limits.wake_ms, escape: true });
        return true;
      } catch (error) {
        if (error instanceof AtError && error.failure === 'closed') throw error;
      }
    }
    return false;
  }

  /** AT+CFUN, TS 27.007 section 8.2: a modem that gives no answers may still hear. */
  async reset(): Promise<void> {
    const asking = { answer_ms: this.limits.wake_ms, escape: true };
    await this.command('AT+CFUN=1,1', asking).catch(() => undefined);
  }

  /** Fails all that waits. The port itself is closed by whoever opened it. */
  close(): void {
    if (this.#isClosed) return;
    this.#isClosed = true;
    const job = this.#job;
    if (job) this.#giveUp(closedError(job.command));
    for (const waiting of this.#queue.splice(0)) waiting.reject(closedError(waiting.command));
    this.#resolveClosed();
  }

  #next(): void {
    if (this.#job || this.#isClosed) return;
    const job = this.#queue.shift();
    if (!job) return;
    this.#job = job;
    const { answer_ms, prompt_ms } = this.limits;
    this.#wait(job.message === undefined ? (job.answer_ms ?? answer_ms) : prompt_ms);
    this.#write(`${job.escape ? ESC : ''}${job.command}\r`);
  }

  #wait(time_ms: number): void {
    const job = this.#job;
    if (!job) return;
    job.cancel();
    job.cancel = this.#timer.after(time_ms, () => {
      const reason = `modem: expected an answer to ${commandName(job.command)} within ${time_ms} ms, got none`;
      this.#giveUp(new AtError('RECEIVER_UNAVAILABLE', reason, { failure: 'silent' }));
    });
  }

  #take(chunk: Uint8Array): void {
    const promptAwaited = () => this.#job?.message !== undefined && !this.#job.prompted;
    for (const received of this.#lines.take(chunk, promptAwaited)) {
      if (this.#isClosed) return;
      if (received.type === 'prompt') this.#prompt();
      else this.#line(received.text);
    }
  }

  #prompt(): void {
    const job = this.#job;
    if (job?.message === undefined) return;
    job.prompted = true;
    this.#wait(job.answer_ms ?? this.limits.accept_ms);
    this.#write(`${job.message}${CTRL_Z}`);
  }

  #line(line: string): void {
    const heading = this.#heading;
    this.#heading = undefined;
    if (heading && isPdu(line)) {
      this.#onUnsolicited({ type: heading.heading, pdu: withCentre(line, heading.octets) });
      return;
    }
    const sorted = sortUnsolicited(line, this.#job?.command);
    if (sorted?.type === 'event') this.#onUnsolicited(sorted.event);
    else if (sorted?.type === 'heading') this.#heading = sorted;
    else if (this.#job) this.#answer(this.#job, line);
  }

  #answer(job: Job, line: string): void {
    if (line === job.command || line === job.message) return;
    if (REFUSED.test(line)) this.#giveUp(refusal(job.command, line));
    else if (!OK.test(line)) {
      if (job.lines.length < this.limits.answer_lines) job.lines.push(line);
    } else {
      const early = job.message !== undefined && !job.prompted;
      if (!early && hasExpected(job)) this.#finish(() => job.resolve(job.lines));
    }
  }

  /** A message whose number has come is accepted, whatever becomes of the OK after it. */
  #giveUp(error: AtError): void {
    const job = this.#job;
    if (!job) return;
    const numbered = job.prompted && job.expect !== undefined && hasExpected(job);
    const accepted = numbered && error.failure !== 'refused';
    // A modem left at its prompt would take the next command for the text.
    if (job.message !== undefined && !accepted) this.#write(ESC);
    this.#finish(() => (accepted ? job.resolve(job.lines) : job.reject(error)));
  }

  #write(text: string): void {
    if (!this.#isClosed && this.#port.writable) this.#port.write(text);
  }

  #finish(settle: () => void): void {
    this.#job?.cancel();
    this.#job = undefined;
    settle();
    queueMicrotask(() => this.#next());
  }
}

function hasExpected({ expect, lines }: Job): boolean {
  return expect === undefined || lines.some((line) => line.startsWith(expect));
}

function closedError(command: string): AtError {
  const reason = `modem: expected an answer to ${commandName(command)}, got the end of the port`;
  return new AtError('RECEIVER_UNAVAILABLE', reason, { failure: 'closed' });
}
