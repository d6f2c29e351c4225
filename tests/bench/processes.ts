/** Processes of a bench: started, spoken to, and stopped whatever happens. */
import { type ChildProcess, fork, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { type AddressInfo, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Load, siteOf } from './load.js';

const MAIN = new URL('../../services/main.js', import.meta.url).pathname;

/** Runs the work with a place to leave what must be undone at its end. */
export async function cleaningUp<Result>(
  work: (undo: (step: () => unknown) => void) => Promise<Result>,
): Promise<Result> {
  const steps: (() => unknown)[] = [];
  try {
    return await work((step) => steps.push(step));
  } finally {
    for (const step of steps.reverse()) await step();
  }
}

export type Undo = (step: () => unknown) => void;

/** Starts another file of the benches and waits for its first word. */
export async function startOwn(
  undo: Undo,
  file: string,
  ...args: string[]
): Promise<{ child: ChildProcess; word: unknown }> {
  const child = fork(new URL(file, import.meta.url), args);
  undo(() => child.kill('SIGKILL'));
  const [word] = (await once(child, 'message')) as [unknown];
  return { child, word };
}

/** Sends a word and waits for the answer. */
export async function ask<Answer>(child: ChildProcess, word: string): Promise<Answer> {
  child.send(word);
  const [answer] = (await once(child, 'message')) as [Answer];
  return answer;
}

export function temporaryDirectory(undo: Undo): string {
  const directory = mkdtempSync(join(tmpdir(), 'sandlarder-bench-'));
  undo(() => rmSync(directory, { recursive: true, force: true }));
  return directory;
}

export function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address() as AddressInfo;
      server.close(() => resolve(port));
    });
  });
}

export interface Serving {
  readonly child: ChildProcess;
  readonly http: string;
}

/** `sandlarder serve` on a fresh directory with the load's site. */
export async function startService(
  undo: Undo,
  load: Load,
  directory: string,
  ...args: string[]
): Promise<Serving> {
  const file = join(directory, 'site.json');
  writeFileSync(file, JSON.stringify(siteOf(load)));
  const loading = spawn(process.execPath, [MAIN, 'load', file, '--data', directory], { stdio: 'ignore' });
  await once(loading, 'close');
  const child = spawn(
    process.execPath,
    [MAIN, 'serve', '--data', directory, '--listen', '127.0.0.1:0', ...args],
    {
      stdio: ['ignore', 'ignore', 'pipe'],
    },
  );
  undo(async () => {
    if (child.exitCode !== null) return;
    child.kill('SIGTERM');
    await once(child, 'close');
  });
  const http = await new Promise<string>((resolve, reject) => {
    let said = '';
    child.stderr?.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      const ready = /questions at (\S+)\/api/.exec(said);
      if (ready?.[1]) resolve(ready[1]);
    });
    child.once('close', () => reject(new Error(`serve ended: ${said}`)));
  });
  return { child, http };
}

/** A counter of the service. */
export async function counter(http: string, name: string): Promise<number> {
  const text = await (await fetch(`${http}/metrics`)).text();
  return Number(new RegExp(`^sandlarder_${name} (\\d+)`, 'm').exec(text)?.[1] ?? Number.NaN);
}
