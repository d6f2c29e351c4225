/** Processes of a bench: started, spoken to, waited for not too long, and stopped whatever happens. */
import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { type AddressInfo, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Longest that a single step of a bench may take, ms: a bench that hangs is stopped and says where. */
const STEP_ms = 300_000;

/** From the request to stop until a process is killed, ms. */
const STOP_ms = 10_000;

/** Takes note of something to be undone at the end of the work. */
export type Undo = (step: () => unknown) => void;

const standing: (() => unknown)[] = [];

/** Runs the work, and then undoes what it left to be undone, the last first. */
export async function cleaningUp<Result>(work: (undo: Undo) => Promise<Result>): Promise<Result> {
  const before = standing.length;
  try {
    return await work((step) => standing.push(step));
  } finally {
    await undoDownTo(before);
  }
}

/** Undoes everything that is still to be undone: for when the bench itself is told to stop. */
export const undoAll = (): Promise<void> => undoDownTo(0);

async function undoDownTo(length: number): Promise<void> {
  while (standing.length > length) await standing.pop()?.();
}

/**
 * Waits for something that a process has to bring about.
 *
 * @throws Error where the process ends first, or the time is up
 */
export async function expectFrom<Result>(
  child: ChildProcess,
  what: string,
  awaited: Promise<Result>,
): Promise<Result> {
  const over = new AbortController();
  const { signal } = over;
  const ended = once(child, 'exit', { signal }).then(([code, killedBy]) => {
    throw new Error(`expected ${what}, got the end of the process: ${killedBy ?? code}`);
  });
  const late = new Promise<never>((_, reject) => {
    const timer = setTimeout(
      () => reject(new Error(`expected ${what} within ${STEP_ms} ms, got nothing`)),
      STEP_ms,
    );
    signal.addEventListener('abort', () => clearTimeout(timer));
  });
  try {
    return await Promise.race([awaited, ended, late]);
  } finally {
    ended.catch(() => undefined);
    over.abort();
  }
}

/** Asks a process to stop, and kills it where it does not. */
export async function stop(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const ended = once(child, 'exit');
  child.kill('SIGCONT');
  child.kill('SIGTERM');
  const timer = setTimeout(() => child.kill('SIGKILL'), STOP_ms);
  await ended;
  clearTimeout(timer);
}

/** A file of the benches that runs as a process of its own and answers one word with one message. */
export interface Own {
  readonly child: ChildProcess;
  ask<Answer>(word: string | number): Promise<Answer>;
}

/** Starts a file of the benches; it has sent its first message by then. */
export async function startOwn<First>(
  undo: Undo,
  file: string,
  ...args: string[]
): Promise<Own & { first: First }> {
  const child = fork(new URL(file, import.meta.url), args);
  undo(() => stop(child));
  const next = <Answer>(): Promise<Answer> =>
    expectFrom(
      child,
      `an answer of ${file}`,
      once(child, 'message').then(([answer]) => answer as Answer),
    );
  const first = await next<First>();
  return {
    child,
    first,
    ask: (word) => {
      child.send(word);
      return next();
    },
  };
}

export function temporaryDirectory(undo: Undo): string {
  const directory = mkdtempSync(join(tmpdir(), 'sandlarder-bench-'));
  undo(() => rmSync(directory, { recursive: true, force: true }));
  return directory;
}

/** A port of the loopback that nothing listens on now. */
export function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const { port } = server.address() as AddressInfo;
      server.close(() => resolve(port));
    });
  });
}
