/**
 * Requests to one InfluxDB, each with an end.
 *
 * The client's own time limit is on silence before the answer begins: an answer that stops half-way would be waited for
 * without end. And it takes any answer from 200 to 299 to a write for a yes, also the page of a proxy or of a network
 * that asks to be paid. So requests go through its pool, with a limit on the whole, and only 204 is a yes.
 */
import { Agent as HttpAgent } from 'node:http';
import { Agent as HttpsAgent } from 'node:https';
import { Pool } from 'influx/lib/src/pool.js';
import { type InfluxAddress, shownAddress } from './address.js';

/** Of a request with its answer, ms: protects the forwarding from a server that hangs. */
export const REQUEST_LIMIT_ms = 30_000;

/** [RFC 9110 15.3.5] What an InfluxDB says to a write that it has kept. */
const NO_CONTENT = 204;

/** The pool's own pauses, none: what waits, and how long, is decided by who asks. */
const NO_PAUSE = { getDelay: () => 0, next: () => NO_PAUSE, reset: () => NO_PAUSE };

/** One table of an answer. */
export interface Table {
  readonly name?: string;
  readonly tags?: Readonly<Record<string, string>>;
  readonly columns: readonly string[];
  readonly values?: readonly (readonly unknown[])[];
}

interface QueryAnswer {
  readonly error?: string;
  readonly results?: readonly { readonly error?: string; readonly series?: readonly Table[] }[];
}

/** The server understood the question and refused it. */
export class QueryRefused extends Error {}

export class InfluxConnection {
  readonly shown: string;
  readonly database: string;
  readonly #auth: string | undefined;
  readonly #pool: Pool;
  readonly #agent: HttpAgent;
  readonly #limit_ms: number;
  readonly #closing = new AbortController();

  constructor(address: InfluxAddress, limit_ms = REQUEST_LIMIT_ms) {
    const { tls, host, port, prefix, credentials } = address;
    this.shown = shownAddress(address);
    this.database = address.database;
    this.#limit_ms = limit_ms;
    this.#auth = credentials && `${credentials.user}:${credentials.password}`;
    this.#agent = tls ? new HttpsAgent({ keepAlive: true }) : new HttpAgent({ keepAlive: true });
    this.#pool = new Pool({ maxRetries: 0, requestTimeout: limit_ms, backoff: NO_PAUSE });
    const name = host.includes(':') ? `[${host}]` : host;
    this.#pool.addHost(`${tls ? 'https' : 'http'}://${name}:${port}${prefix}`, { agent: this.#agent });
  }

  /** Has the server keep lines of the line protocol, times in ms. Resolves once it has said that it has. */
  write(lines: string): Promise<void> {
    return this.#inTime(
      (signal) =>
        new Promise((resolve, reject) => {
          this.#pool.stream(
            {
              method: 'POST',
              path: '/write',
              query: { db: this.database, precision: 'ms' },
              body: lines,
              signal,
              ...this.#authorised(),
            },
            (error, answer) => {
              if (error) return reject(error);
              answer.resume();
              if (answer.statusCode === NO_CONTENT) return resolve();
              reject(
                new Error(`expected the answer 204 of an InfluxDB to a write, got ${answer.statusCode}`),
              );
            },
          );
        }),
    );
  }

  /**
   * Asks in InfluxQL; times come in ms.
   *
   * @throws QueryRefused where the server answers that it will not
   */
  async query(text: string, change: 'look' | 'change' = 'look'): Promise<readonly Table[]> {
    const answer = await this.#inTime(
      (signal) =>
        this.#pool.json({
          method: change === 'change' ? 'POST' : 'GET',
          path: '/query',
          query: { db: this.database, epoch: 'ms', q: text },
          signal,
          ...this.#authorised(),
        }) as Promise<QueryAnswer>,
    );
    const [result] = answer.results ?? [];
    const error = answer.error ?? result?.error;
    if (error !== undefined) throw new QueryRefused(error);
    if (!result) throw new Error('expected the answer of an InfluxDB, got something else');
    return result.series ?? [];
  }

  /** Ends what is under way, which then fails, and every connection. */
  close(): void {
    this.#closing.abort(new Error('stopped'));
    this.#agent.destroy();
  }

  #authorised(): { readonly auth?: string } {
    return this.#auth === undefined ? {} : { auth: this.#auth };
  }

  async #inTime<Result>(ask: (signal: AbortSignal) => Promise<Result>): Promise<Result> {
    const over = new AbortController();
    const end = (reason: unknown): void => over.abort(reason);
    const timer = setTimeout(
      () => end(new Error(`expected an answer within ${this.#limit_ms / 1000} s, got none`)),
      this.#limit_ms,
    );
    const stop = (): void => end(this.#closing.signal.reason);
    this.#closing.signal.addEventListener('abort', stop);
    if (this.#closing.signal.aborted) stop();
    const ended = new Promise<never>((_, reject) => {
      if (over.signal.aborted) reject(over.signal.reason);
      over.signal.addEventListener('abort', () => reject(over.signal.reason));
    });
    try {
      return await Promise.race([ended, ask(over.signal)]);
    } finally {
      clearTimeout(timer);
      this.#closing.signal.removeEventListener('abort', stop);
    }
  }
}
