/** `sandlarder serve` as its users start it, and what it says of itself. */
import { copyFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { temporaryDirectory, type Undo } from '../bench/processes.js';
import { type Running, run, startKept } from '../support/kept-processes.js';
import type { Season } from '../support/season.js';
import { holds, NotHeld } from './counting.js';

/** Between looks at what it says of itself, ms, and longest wait for it to say what it must, ms. */
const LOOK_ms = 50;
const LONGEST_ms = 180_000;

export interface Health {
  readonly status: string;
  readonly accepting: boolean;
  readonly problems: readonly string[];
  readonly broker: { readonly connected: boolean };
  readonly newestReadingAt: string | null;
  readonly watchLag: { readonly hours: number };
  readonly outboxWaiting: number;
  readonly longArchive: {
    readonly waiting: number;
    readonly refused: number;
    readonly lastError: { readonly at: string; readonly reason: string } | null;
  } | null;
}

export interface Launch {
  readonly environment?: NodeJS.ProcessEnv;
  /** A command that runs it in its own place. */
  readonly through?: readonly string[];
  /** Asks within that place, where this process cannot reach it; a request of its own where absent. */
  readonly ask?: (url: string) => Promise<unknown>;
}

const fetched = async (url: string): Promise<unknown> => (await fetch(url)).json();

export class Service {
  readonly running: Running;
  readonly broker: string;
  readonly #http: string;
  readonly #ask: (url: string) => Promise<unknown>;

  private constructor(running: Running, broker: string, http: string, ask = fetched) {
    this.running = running;
    this.broker = broker;
    this.#http = http;
    this.#ask = ask;
  }

  /** It says that it is ready by then. */
  static async start(undo: Undo, args: readonly string[], launch: Launch = {}): Promise<Service> {
    const { environment, through, ask } = launch;
    const running = startKept(['serve', '--listen', '127.0.0.1:0', ...args], environment, through);
    undo(() => running.kill());
    const [, broker = '', http = ''] = await running.said(/readings at (\S+), questions at (\S+)\/api/);
    return new Service(running, broker, http, ask);
  }

  async health(): Promise<Health> {
    return (await this.#ask(`${this.#http}/api/health`)) as Health;
  }

  /** @throws NotHeld where it never comes about */
  async until(what: string, isSo: (health: Health) => boolean): Promise<Health> {
    const latest = Date.now() + LONGEST_ms;
    let health: Health | undefined;
    while (Date.now() < latest) {
      health = await this.health().catch(() => undefined);
      if (health && isSo(health)) return health;
      await wait(LOOK_ms);
    }
    throw new NotHeld(`expected ${what}, got ${JSON.stringify(health)}; it said: ${this.running.output()}`);
  }

  /** It says that it is `degraded`, and why; gives that sentence. */
  async says(reason: RegExp): Promise<string> {
    const said = ({ problems }: Health): string | undefined => problems.find((one) => reason.test(one));
    const health = await this.until(`a problem like ${reason}`, (one) => said(one) !== undefined);
    holds(health.status === 'degraded', `the status degraded, got ${health.status}`);
    return said(health) ?? '';
  }

  /** Nothing waits to be judged or told, and it has a reading of that time or later. */
  async settled(newest: number): Promise<void> {
    await this.until(
      'everything judged and told',
      ({ newestReadingAt, watchLag, outboxWaiting }) =>
        Date.parse(String(newestReadingAt)) >= newest && watchLag.hours < 1 && outboxWaiting === 0,
    );
  }

  async connected(): Promise<void> {
    await this.until('a connection to the broker', ({ broker }) => broker.connected);
  }

  /** Asks it to stop. @throws NotHeld where it does not end well */
  async stop(): Promise<void> {
    const code = await this.running.stop();
    holds(code === 0, `the exit code 0, got ${code}: ${this.running.output()}`);
  }
}

/** A data directory that has the season's site. */
export async function loaded(
  undo: Undo,
  { site }: Pick<Season, 'site'>,
  directory = temporaryDirectory(undo),
  through: readonly string[] = [],
): Promise<string> {
  const file = join(temporaryDirectory(undo), 'site.json');
  writeFileSync(file, JSON.stringify(site));
  const { code, stderr } = await run(['load', file, '--data', directory], {}, through);
  holds(code === 0, `the site to be taken in, got: ${stderr}`);
  return directory;
}

export interface AtRest {
  readonly readings: number;
  /** Values set aside, for whatever reason: another value for what is there already is among them. */
  readonly setAside: number;
}

/** What stands in a data directory, or in a backup. */
export function atRest(directory: string, name = 'sandlarder.db'): AtRest {
  const database = new Database(join(directory, name), { fileMustExist: true });
  try {
    const count = (sql: string): number => database.prepare(sql).pluck().get() as number;
    return {
      readings: count('SELECT count(*) FROM reading'),
      setAside: count('SELECT coalesce(sum(count), 0) FROM quarantine_total'),
    };
  } finally {
    database.close();
  }
}

/** What stands in a directory of another namespace, whose files SQLite cannot find by the way that leads there. */
export function atRestElsewhere(undo: Undo, seen: string): AtRest {
  const copy = temporaryDirectory(undo);
  for (const name of readdirSync(seen).filter((one) => /^sandlarder\.db(-wal)?$/.test(one)))
    copyFileSync(join(seen, name), join(copy, name));
  return atRest(copy);
}

/** Event time of a season's last reading, ms. */
export function newestOf({ messages }: Pick<Season, 'messages'>): number {
  const pack = JSON.parse(messages.at(-1)?.payload ?? '[]') as { bt: number }[];
  return (pack[0]?.bt ?? 0) * 1000;
}
