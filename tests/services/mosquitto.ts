/** A private Mosquitto for tests: its own folder, its own port on the loopback, settings as the notes for operators ask. */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { connect, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

const PROGRAM = ['/usr/sbin/mosquitto', '/usr/local/sbin/mosquitto', '/opt/homebrew/sbin/mosquitto'].find(
  existsSync,
);

/** Longest that a start may take, ms. */
const START_ms = 15_000;
const ASK_EVERY_ms = 20;

export interface Mosquitto {
  readonly port: number;
  readonly url: string;
  /** Starts it again on the same port with what it had stored. */
  restart(): Promise<void>;
  /** SIGTERM: it stores its sessions and ends. */
  stop(): Promise<void>;
  /** SIGKILL: it stores nothing more. */
  kill(): Promise<void>;
  /** SIGSTOP: it takes connections and answers nothing. */
  hold(): void;
  /** SIGCONT. */
  release(): void;
  /** Stops it and removes its folder. */
  dispose(): Promise<void>;
}

const SETTINGS: Readonly<Record<string, string>> = {
  persistence: 'true',
  autosave_on_changes: 'true',
  autosave_interval: '1',
  max_queued_messages: '0',
  max_inflight_messages: '1000',
  allow_anonymous: 'true',
};

/** @param overrides settings that differ, by their names in mosquitto.conf */
export async function startMosquitto(overrides: Readonly<Record<string, string>> = {}): Promise<Mosquitto> {
  if (PROGRAM === undefined) throw new Error('expected Mosquitto on this machine, got none');
  const program = PROGRAM;
  const folder = await mkdtemp(join(tmpdir(), 'mosquitto-'));
  const port = await freePort();
  const settings = { ...SETTINGS, persistence_location: `${folder}/`, ...overrides };
  const lines = Object.entries(settings).map(([name, value]) => `${name} ${value}`);
  const config = join(folder, 'mosquitto.conf');
  await writeFile(config, [`listener ${port} 127.0.0.1`, ...userLine(), ...lines, ''].join('\n'));
  let running = await launch(program, config, port);
  const end = (signal: NodeJS.Signals) => endProcess(running, signal);
  return {
    port,
    url: `mqtt://127.0.0.1:${port}`,
    restart: async () => {
      await end('SIGTERM');
      running = await launch(program, config, port);
    },
    stop: () => end('SIGTERM'),
    kill: () => end('SIGKILL'),
    hold: () => void running.kill('SIGSTOP'),
    release: () => void running.kill('SIGCONT'),
    dispose: async () => {
      await end('SIGTERM');
      await rm(folder, { recursive: true, force: true });
    },
  };
}

/** Started by root it would change to a user who may not write to the folder. */
const userLine = (): string[] => (process.getuid?.() === 0 ? ['user root'] : []);

async function launch(program: string, config: string, port: number): Promise<ChildProcess> {
  const child = spawn(program, ['-c', config], { stdio: ['ignore', 'ignore', 'pipe'] });
  let said = '';
  child.stderr.on('data', (text) => {
    said = `${said}${text}`.slice(-2000);
  });
  const latest = Date.now() + START_ms;
  while (!(await accepts(port))) {
    if (child.exitCode !== null || Date.now() > latest)
      throw new Error(`Mosquitto: expected it to accept connections, got ${said}`);
    await pause(ASK_EVERY_ms);
  }
  return child;
}

function accepts(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect({ port, host: '127.0.0.1' });
    socket.once('connect', () => {
      socket.destroy();
      resolve(true);
    });
    socket.once('error', () => resolve(false));
  });
}

async function endProcess(child: ChildProcess, signal: NodeJS.Signals): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const ended = new Promise((resolve) => child.once('exit', resolve));
  child.kill('SIGCONT');
  child.kill(signal);
  await ended;
}

/** A port of the loopback that nothing listens on now. */
export function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });
}
