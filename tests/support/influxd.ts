/** A private InfluxDB 1.x on the loopback: its own folder and ports. It syncs its log at every write, as it does by default. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

const PROGRAM = ['/usr/bin/influxd', '/usr/local/bin/influxd', '/opt/homebrew/bin/influxd'].find(existsSync);

/** Longest that a start may take, ms. */
const START_ms = 30_000;
const ASK_EVERY_ms = 20;

export const hasInfluxd = PROGRAM !== undefined;

export interface Influxd {
  readonly port: number;
  /** Without a database. */
  readonly url: string;
  /** SIGKILL: whatever it had not synced is lost. */
  kill(): Promise<void>;
  /** Starts it again on the same port with what it had kept. */
  start(): Promise<void>;
  /** SIGSTOP: it takes connections and answers nothing. */
  hold(): void;
  /** SIGCONT. */
  release(): void;
  /** Stops it and removes its folder. */
  dispose(): Promise<void>;
}

/** @param settings of its part `[http]` that differ */
export async function startInfluxd(settings: Readonly<Record<string, string>> = {}): Promise<Influxd> {
  if (PROGRAM === undefined) throw new Error('expected InfluxDB on this machine, got none');
  const program = PROGRAM;
  const folder = await mkdtemp(join(tmpdir(), 'influxd-'));
  const [port, other] = await freePorts();
  const config = join(folder, 'influxdb.conf');
  await writeFile(config, configOf(folder, port, other, settings));
  const url = `http://127.0.0.1:${port}`;
  let running = await launch(program, config, url);
  const end = async (signal: NodeJS.Signals): Promise<void> => {
    if (running.exitCode !== null || running.signalCode !== null) return;
    const ended = once(running, 'exit');
    running.kill('SIGCONT');
    running.kill(signal);
    await ended;
  };
  return {
    ...{ port, url },
    kill: () => end('SIGKILL'),
    start: async () => {
      running = await launch(program, config, url);
    },
    hold: () => void running.kill('SIGSTOP'),
    release: () => void running.kill('SIGCONT'),
    dispose: async () => {
      await end('SIGKILL');
      await rm(folder, { recursive: true, force: true });
    },
  };
}

function configOf(
  folder: string,
  port: number,
  other: number,
  settings: Readonly<Record<string, string>>,
): string {
  const http = Object.entries(settings).map(([name, value]) => `${name} = ${value}`);
  return [
    'reporting-disabled = true',
    `bind-address = "127.0.0.1:${other}"`,
    ...['[meta]', `dir = "${folder}/meta"`, 'logging-enabled = false'],
    ...['[data]', `dir = "${folder}/data"`, `wal-dir = "${folder}/wal"`, 'query-log-enabled = false'],
    ...['[monitor]', 'store-enabled = false'],
    ...['[http]', `bind-address = "127.0.0.1:${port}"`, 'log-enabled = false', ...http],
    '',
  ].join('\n');
}

async function launch(program: string, config: string, url: string): Promise<ChildProcess> {
  const child = spawn(program, ['-config', config], { stdio: ['ignore', 'ignore', 'pipe'] });
  let said = '';
  child.stderr.on('data', (text) => {
    said = `${said}${text}`.slice(-2000);
  });
  const latest = Date.now() + START_ms;
  while (!(await answers(url))) {
    if (child.exitCode !== null || Date.now() > latest)
      throw new Error(`InfluxDB: expected it to answer, got ${said}`);
    await pause(ASK_EVERY_ms);
  }
  return child;
}

const answers = (url: string): Promise<boolean> =>
  fetch(`${url}/ping`).then(
    ({ status }) => status === 204,
    () => false,
  );

/** Two ports of the loopback that nothing listens on now. */
async function freePorts(): Promise<[number, number]> {
  const servers = await Promise.all([listening(), listening()]);
  const ports = servers.map((server) => {
    const address = server.address();
    return typeof address === 'object' && address !== null ? address.port : 0;
  });
  await Promise.all(servers.map((server) => new Promise((resolve) => server.close(resolve))));
  return ports as [number, number];
}

async function listening() {
  const server = createServer();
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  return server;
}
