/**
 * Looks at every page of the database: after an end that was none of the service's own will, and once a month. A start
 * does not wait for it, which years of readings would make long: a process of its own looks, which can be ended at any
 * moment, as a thread within SQLite cannot.
 */
import { type ChildProcess, fork } from 'node:child_process';
import { existsSync } from 'node:fs';
import { lookAtPages } from '../archive/index.js';
import { DAY_ms } from '../core/model/time.js';

/** ms */
const EVERY_ms = 30 * DAY_ms;
/** How often it is asked whether a month is over, ms. */
const ASK_ms = DAY_ms;

/** The compiled program; the sources have none, and look in this process. */
const PROGRAM = new URL('./look-over-process.js', import.meta.url);

/** What the name of the mark is among what the service remembers of itself. */
const MARK = 'pages-looked-at';

export type Found = { readonly damage: string | null } | { readonly error: string };

export interface LookOverParts {
  readonly directory: string;
  readonly own: { get(name: string): string | undefined; set(name: string, value: string): void };
  /** Wall clock, ms. */
  readonly now: () => number;
  readonly onDamage: (damage: string) => void;
  readonly onError: (error: unknown) => void;
}

export class LookOver {
  readonly #parts: LookOverParts;
  #process: ChildProcess | undefined;
  #closed = false;
  #timer: NodeJS.Timeout | undefined;

  constructor(parts: LookOverParts) {
    this.#parts = parts;
  }

  /** @param unclean the service before this one did not end by itself */
  begin(unclean: boolean): void {
    const looked = this.#parts.own.get(MARK);
    if (looked === undefined) this.#note();
    if (unclean || this.#isDue(Number(looked ?? this.#parts.now()))) this.#look();
    this.#timer = setInterval(() => {
      if (this.#isDue(Number(this.#parts.own.get(MARK)))) this.#look();
    }, ASK_ms);
  }

  close(): void {
    this.#closed = true;
    clearInterval(this.#timer);
    this.#process?.kill('SIGKILL');
  }

  /** Of a clock that was set back nothing is known. */
  #isDue(lookedAt: number): boolean {
    const age_ms = this.#parts.now() - lookedAt;
    return !(age_ms >= 0 && age_ms < EVERY_ms);
  }

  #note(): void {
    this.#parts.own.set(MARK, String(this.#parts.now()));
  }

  #noteQuietly(): void {
    try {
      this.#note();
    } catch (error) {
      this.#parts.onError(error);
    }
  }

  #look(): void {
    if (this.#process || this.#closed) return;
    if (!existsSync(PROGRAM)) {
      this.#heard(lookedAt(this.#parts.directory));
      return;
    }
    const looking = fork(PROGRAM, [this.#parts.directory], { stdio: ['ignore', 'ignore', 'ignore', 'ipc'] });
    this.#process = looking;
    let found: Found | undefined;
    looking.once('message', (message) => {
      found = message as Found;
    });
    looking.once('error', (error) => this.#heard({ error: String(error) }));
    looking.once('close', (code, signal) => {
      this.#process = undefined;
      this.#heard(found ?? { error: `expected what was found, got the end ${signal ?? code}` });
    });
  }

  #heard(found: Found): void {
    if (this.#closed) return;
    if ('error' in found) this.#parts.onError(found.error);
    else if (found.damage !== null) this.#parts.onDamage(found.damage);
    else this.#noteQuietly();
  }
}

/** Never throws: what the process sends back. */
export function lookedAt(directory: string): Found {
  try {
    return { damage: lookAtPages(directory) ?? null };
  } catch (error) {
    return { error: error instanceof Error ? error.message : String(error) };
  }
}
