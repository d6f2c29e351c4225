/** Answers long questions: one at a time in a thread of its own, so that readings go on being taken in, and each once. */
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { type ErrorCode, SandlarderError } from '../core/errors.js';

/** What a thread sends back. */
export type Answered<Answer> =
  | { readonly answer: Answer }
  | { readonly refused: { readonly code: ErrorCode; readonly message: string } };

/** What a desk answers, and its bounds. */
export interface Answering<Task, Answer> {
  /** As messages call it. */
  readonly name: string;
  /** The compiled worker; the sources have none, and are answered in this thread. */
  readonly worker: URL;
  readonly answerOf: (task: Task) => Answer;
  /** Answers at hand, so that who asks again is not kept waiting. */
  readonly kept: number;
  /** Questions under way or waiting at the most: each takes up to some seconds of one core, and an asker waits 30 s. */
  readonly openMost: number;
}

/** Answers a question in a thread of its own, and tells why where it is refused. */
export function answered<Task, Answer>(answerOf: (task: Task) => Answer, task: Task): Answered<Answer> {
  try {
    return { answer: answerOf(task) };
  } catch (error) {
    if (!(error instanceof SandlarderError)) throw error;
    return { refused: { code: error.code, message: error.message } };
  }
}

export class ThreadDesk<Task, Answer> {
  readonly #desk: Answering<Task, Answer>;
  readonly #answering: (task: Task) => Promise<Answer>;
  /** By question; the last used stands last. */
  readonly #answers = new Map<string, Promise<Answer>>();
  readonly #threads = new Set<Worker>();
  #last: Promise<unknown> = Promise.resolve();
  #open = 0;
  #closed = false;

  /** @param answering how a question is answered; in a thread where absent, in this one where there is no compiled worker */
  constructor(desk: Answering<Task, Answer>, answering?: (task: Task) => Promise<Answer>) {
    this.#desk = desk;
    const inThread = (task: Task): Promise<Answer> => this.#inThread(task);
    this.#answering = answering ?? (existsSync(desk.worker) ? inThread : async (task) => desk.answerOf(task));
  }

  /** @throws SandlarderError LIMIT_EXCEEDED where too many wait, and what the answer is refused with */
  answer(task: Task): Promise<Answer> {
    const key = JSON.stringify(task);
    const known = this.#answers.get(key) ?? this.#ask(task);
    this.#answers.delete(key);
    this.#answers.set(key, known);
    known.catch(() => this.#drop(key, known));
    const [oldest] = this.#answers.keys();
    if (this.#answers.size > this.#desk.kept && oldest !== undefined) this.#answers.delete(oldest);
    return known;
  }

  /** What failed is asked anew the next time. */
  #drop(key: string, answer: Promise<Answer>): void {
    if (this.#answers.get(key) === answer) this.#answers.delete(key);
  }

  async #ask(task: Task): Promise<Answer> {
    const { name, openMost } = this.#desk;
    if (!(this.#open < openMost))
      throw new SandlarderError(
        'LIMIT_EXCEEDED',
        `${name}: expected at most ${openMost} questions at a time, got one more: ask again in a minute`,
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

  async #inThread(task: Task): Promise<Answer> {
    if (this.#closed) throw stopped(this.#desk.name);
    const thread = new Worker(this.#desk.worker, { workerData: task });
    this.#threads.add(thread);
    try {
      const ended = once(thread, 'exit').then((): never => {
        throw stopped(this.#desk.name);
      });
      const [answered] = (await Promise.race([once(thread, 'message'), ended])) as [Answered<Answer>];
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

const stopped = (name: string): SandlarderError =>
  new SandlarderError('STORE_UNAVAILABLE', `${name}: the service is being stopped`);
