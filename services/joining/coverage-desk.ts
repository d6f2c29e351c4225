/**
 * Answers what beds' probes would find: one question at a time in a thread of its own, so that readings go on being
 * taken in, and each question once.
 */
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { type ErrorCode, SandlarderError } from '../core/errors.js';
import { answerOf, type CoverageAnswer, type CoverageTask } from '../core/watch/coverage/index.js';

/** What a thread sends back. */
export type Answered =
  | { readonly answer: CoverageAnswer }
  | { readonly refused: { readonly code: ErrorCode; readonly message: string } };

/** Answers at hand, so that a page that asks again is not computed again: up to 100 KB each. */
const KEPT = 32;
/** Questions under way or waiting at the most: each takes up to some seconds of one core, and an asker waits 30 s. */
const OPEN_MOST = 5;

/** Where the compiled worker stands; the sources have none. */
const WORKER_FILE = new URL('./coverage-worker.js', import.meta.url);

type Answering = (task: CoverageTask) => Promise<CoverageAnswer>;

export class CoverageDesk {
  readonly #answering: Answering;
  /** By question; the last used stands last. */
  readonly #answers = new Map<string, Promise<CoverageAnswer>>();
  readonly #threads = new Set<Worker>();
  #last: Promise<unknown> = Promise.resolve();
  #open = 0;
  #closed = false;

  /** @param answering how a question is answered; in a thread where absent, in this one where there is no compiled worker */
  constructor(answering?: Answering) {
    const inThread: Answering = (task) => this.#inThread(task);
    this.#answering = answering ?? (existsSync(WORKER_FILE) ? inThread : async (task) => answerOf(task));
  }

  /** @throws SandlarderError LIMIT_EXCEEDED where too many wait, and as `coverageOf` */
  answer(task: CoverageTask): Promise<CoverageAnswer> {
    const key = JSON.stringify(task);
    const known = this.#answers.get(key) ?? this.#ask(task);
    this.#answers.delete(key);
    this.#answers.set(key, known);
    known.catch(() => this.#drop(key, known));
    const [oldest] = this.#answers.keys();
    if (this.#answers.size > KEPT && oldest !== undefined) this.#answers.delete(oldest);
    return known;
  }

  /** What failed is asked anew the next time. */
  #drop(key: string, answer: Promise<CoverageAnswer>): void {
    if (this.#answers.get(key) === answer) this.#answers.delete(key);
  }

  async #ask(task: CoverageTask): Promise<CoverageAnswer> {
    if (!(this.#open < OPEN_MOST))
      throw new SandlarderError(
        'LIMIT_EXCEEDED',
        `coverage: expected at most ${OPEN_MOST} questions at a time, got one more: ask again in a minute`,
      );
    this.#open += 1;
    const answer = this.#last.then(() => this.#answering(task));
    this.#last = answer.catch(() => undefined);
    try {
      return await answer;
    } finally {
      this.#open -= 1;
    }
  }

  async #inThread(task: CoverageTask): Promise<CoverageAnswer> {
    if (this.#closed) throw stopped();
    const thread = new Worker(WORKER_FILE, { workerData: task });
    this.#threads.add(thread);
    try {
      const ended = once(thread, 'exit').then((): never => {
        throw stopped();
      });
      const [answered] = (await Promise.race([once(thread, 'message'), ended])) as [Answered];
      if ('answer' in answered) return answered.answer;
      throw new SandlarderError(answered.refused.code, answered.refused.message);
    } finally {
      this.#threads.delete(thread);
      await thread.terminate();
    }
  }

  /** Lets go of what is under way. */
  async close(): Promise<void> {
    this.#closed = true;
    await Promise.all([...this.#threads].map((thread) => thread.terminate()));
  }
}

const stopped = (): SandlarderError =>
  new SandlarderError('STORE_UNAVAILABLE', 'coverage: the service is being stopped');
