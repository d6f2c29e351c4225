/**
 * A private Mosquitto on the loopback, the same for both sides of a comparison: it queues without end, so that it
 * drops nothing, and keeps its queue in memory, so that not its disk is measured.
 */
import { spawn } from 'node:child_process';
import { existsSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { expectFrom, freePort, stop, temporaryDirectory, type Undo } from './processes.js';

const PROGRAM = ['/usr/sbin/mosquitto', '/usr/local/sbin/mosquitto', '/opt/homebrew/sbin/mosquitto'].find(
  existsSync,
);

/** Between attempts to reach it, ms. */
const ASK_EVERY_ms = 20;

export const hasMosquitto = PROGRAM !== undefined;

/** @returns its address */
export async function startMosquitto(undo: Undo): Promise<string> {
  if (PROGRAM === undefined) throw new Error('expected Mosquitto on this machine, got none');
  const directory = temporaryDirectory(undo);
  const port = await freePort();
  const config = join(directory, 'mosquitto.conf');
  const lines = [
    `listener ${port} 127.0.0.1`,
    'allow_anonymous true',
    'max_queued_messages 0',
    'max_inflight_messages 1000',
    // Started by root it would change to a user who may not read the folder.
    ...(process.getuid?.() === 0 ? ['user root'] : []),
  ];
  writeFileSync(config, `${lines.join('\n')}\n`);
  const child = spawn(PROGRAM, ['-c', config], { stdio: 'ignore' });
  undo(() => stop(child));
  await expectFrom(child, 'that Mosquitto listens', untilAccepted(port));
  return `mqtt://127.0.0.1:${port}`;
}

async function untilAccepted(port: number): Promise<void> {
  while (!(await accepts(port))) await pause(ASK_EVERY_ms);
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
