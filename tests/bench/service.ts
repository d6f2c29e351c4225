/** `sandlarder serve` as its users start it, on a fresh directory that holds the load's site. */
import { type ChildProcess, spawn } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { type Load, siteOf } from './load.js';
import { expectFrom, stop, temporaryDirectory, type Undo } from './processes.js';
import { openStored, type Stored } from './stored.js';

/** The program. */
export const MAIN = new URL('../../program/main.js', import.meta.url).pathname;

/** Between looks at what a service says of itself, ms. */
const LOOK_ms = 20;

/** What the benches read of `GET /api/health`. */
interface Health {
  readonly status: string;
  readonly problems: readonly string[];
  readonly broker: { readonly connected: boolean };
  readonly watchLag: { readonly beds: number; readonly hours: number };
}

export interface Service {
  readonly child: ChildProcess;
  /** Where probes reach it, or the broker that it is connected to. */
  readonly url: string;
  /** Where it answers questions. */
  readonly http: string;
  /** Its data. */
  readonly directory: string;
  readonly stored: Stored;
  health(): Promise<Health>;
  /** Value of one of its metrics, named without `sandlarder_`. */
  metric(name: string): Promise<number>;
}

/** Starts it, under this process' own flags for Node.js (`--cpu-prof`), and waits until it is connected to its broker. */
export async function startService(undo: Undo, load: Load, ...flags: string[]): Promise<Service> {
  const directory = temporaryDirectory(undo);
  await loadSite(directory, load);
  const child = spawn(
    process.execPath,
    [...process.execArgv, MAIN, 'serve', '--data', directory, '--listen', '127.0.0.1:0', ...flags],
    { stdio: ['ignore', 'ignore', 'pipe'] },
  );
  undo(() => stop(child));
  const [, url = '', http = ''] = await said(child, /ready: readings at (\S+), questions at (\S+)\/api/);
  const stored = openStored(directory);
  undo(() => stored.close());
  const service: Service = {
    child,
    ...{ url, http, directory, stored },
    health: async () => (await (await fetch(`${http}/api/health`)).json()) as Health,
    metric: async (name) => valueIn(name, await (await fetch(`${http}/metrics`)).text()),
  };
  await expectFrom(child, 'a connection to the broker', untilConnected(service));
  return service;
}

async function loadSite(directory: string, load: Load): Promise<void> {
  const file = join(directory, 'site.json');
  writeFileSync(file, JSON.stringify(siteOf(load)));
  await loadFile(directory, file);
}

/** Takes a site file into a data directory. */
export async function loadFile(directory: string, file: string): Promise<void> {
  const child = spawn(process.execPath, [MAIN, 'load', file, '--data', directory], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  await said(child, /\S/);
}

/** Waits until a process has written the pattern on a stream that it was given a pipe for. */
function said(child: ChildProcess, pattern: RegExp): Promise<RegExpExecArray> {
  let text = '';
  const heard = new Promise<RegExpExecArray>((resolve) => {
    const listen = (chunk: Buffer): void => {
      text += chunk.toString();
      const match = pattern.exec(text);
      if (match) resolve(match);
    };
    for (const stream of [child.stdout, child.stderr]) stream?.on('data', listen);
  });
  return expectFrom(child, `that it says ${pattern}`, heard).catch((error: Error) => {
    throw new Error(`${error.message}; it said: ${text}`);
  });
}

async function untilConnected(service: Service): Promise<void> {
  while (!(await service.health()).broker.connected) await pause(LOOK_ms);
}

/** Beds whose watch was not in memory are judged one after the other. */
export async function untilJudged(health: Service['health']): Promise<void> {
  while ((await health()).watchLag.hours !== 0) await pause(LOOK_ms);
}

function valueIn(name: string, text: string): number {
  const value = new RegExp(`^sandlarder_${name} (\\S+)`, 'm').exec(text)?.[1];
  if (value === undefined) throw new Error(`expected the metric sandlarder_${name}, got none`);
  return Number(value);
}

/**
 * Every message is one row, and every whole hour is judged, without trouble: else what was measured means nothing.
 *
 * For when all of the load is published.
 */
export async function expectAllDone({ child, health, stored }: Service, load: Load): Promise<void> {
  const messages = load.warmUp + load.timed;
  const rows = stored.rows();
  if (rows !== messages) throw new Error(`rows of readings: expected ${messages}, got ${rows}`);
  await expectFrom(child, 'a watch without lag', untilJudged(health));
  const { status, problems } = await health();
  if (status !== 'ok') throw new Error(`health: expected ok, got ${status}: ${problems.join('; ')}`);
  const beds = stored.watchedBeds();
  if (beds !== load.beds) throw new Error(`watch: expected ${load.beds} beds judged, got ${beds}`);
}

/** How large its commits were on the whole, in words. */
export async function messagesACommit({ metric }: Service): Promise<string> {
  const messages = (await metric('messages_received_total')) / (await metric('commits_total'));
  return `${messages.toFixed(0)} messages a commit`;
}
