/** Two networks of a test's own, joined by a cable that can be cut, and a broker in one of them. */
import { execFile, execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { promisify } from 'node:util';
import { stop, temporaryDirectory, type Undo } from '../bench/processes.js';
import { NotHeld } from './counting.js';

/** In the networks of the test alone. */
const NEAR = '10.231.7.1';
const FAR = '10.231.7.2';
const PORT = 18_883;

export interface Network {
  readonly pid: number;
  /** What runs a command within it. */
  readonly through: readonly string[];
  /** What JSON an address within it answers. */
  ask(url: string): Promise<unknown>;
}

export interface Cable {
  readonly near: Network;
  readonly far: Network;
  cut(): void;
  heal(): void;
}

/** @returns undefined where no network may be made */
export async function twoNetworks(undo: Undo): Promise<Cable | undefined> {
  const [near, far] = [await network(undo), await network(undo)];
  if (!near || !far) return undefined;
  try {
    inside(near, `ip link add near type veth peer name far netns ${far.pid}`);
    inside(near, `ip addr add ${NEAR}/24 dev near; ip link set lo up; ip link set near up`);
    inside(far, `ip addr add ${FAR}/24 dev far; ip link set lo up; ip link set far up`);
  } catch {
    return undefined;
  }
  return {
    ...{ near, far },
    cut: () => inside(near, 'ip link set near down'),
    heal: () => inside(near, 'ip link set near up'),
  };
}

/** It stays until the undoing, or until this process ends. */
async function network(undo: Undo): Promise<Network | undefined> {
  const holder = spawn('unshare', ['-n', 'sh', '-c', 'echo ready; exec cat >/dev/null'], {
    stdio: ['pipe', 'pipe', 'ignore'],
  });
  holder.on('error', () => undefined);
  const ended = new Promise<undefined>((resolve) => holder.once('close', () => resolve(undefined)));
  const ready = await Promise.race([once(holder.stdout, 'data'), ended]);
  if (ready === undefined || holder.pid === undefined) return undefined;
  undo(async () => {
    holder.stdin.end();
    await ended;
  });
  const through = ['nsenter', '-t', `${holder.pid}`, '-n', '--'];
  const script = 'fetch(process.argv[1]).then((r) => r.text()).then((t) => process.stdout.write(t))';
  return {
    ...{ pid: holder.pid, through },
    ask: async (url) => {
      const [program = '', ...rest] = [...through, process.execPath, '-e', script, url];
      return JSON.parse((await promisify(execFile)(program, rest)).stdout);
    },
  };
}

function inside({ through }: Network, line: string): void {
  const [program = '', ...rest] = [...through, 'sh', '-ec', line];
  execFileSync(program, rest, { stdio: 'ignore' });
}

/** A Mosquitto that the network reaches by address, and this process by a socket in the file system. */
export async function brokerIn(undo: Undo, { through }: Network): Promise<{ url: string; socket: string }> {
  const folder = temporaryDirectory(undo);
  const socket = join(folder, 'socket');
  const lines = [
    ...[`listener ${PORT} ${NEAR}`, `listener 0 ${socket}`, 'allow_anonymous true', 'user root'],
    ...['persistence true', `persistence_location ${folder}/`, 'max_queued_messages 0'],
    ...['max_inflight_messages 1000', ''],
  ];
  writeFileSync(join(folder, 'mosquitto.conf'), lines.join('\n'));
  const [program = '', ...rest] = [...through, 'mosquitto', '-c', join(folder, 'mosquitto.conf')];
  const child = spawn(program, rest, {
    stdio: 'ignore',
    env: { ...process.env, PATH: `${process.env['PATH']}:/usr/sbin` },
  });
  undo(() => stop(child));
  while (!(await accepts(socket))) {
    if (child.exitCode !== null)
      throw new NotHeld('expected a Mosquitto in a network of its own, got its end');
    await wait(20);
  }
  return { url: `mqtt://${NEAR}:${PORT}`, socket };
}

function accepts(path: string): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect(path);
    socket.once('connect', () => {
      socket.destroy();
      resolve(true);
    });
    socket.once('error', () => resolve(false));
  });
}
