/** A private Mosquitto for benches: queues without end, nothing written to disk but what its defaults write. */
import { spawn } from 'node:child_process';
import { existsSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { freePort, temporaryDirectory, type Undo } from './processes.js';

const PROGRAM = ['/usr/sbin/mosquitto', '/usr/local/sbin/mosquitto', '/usr/bin/mosquitto'].find((path) =>
  existsSync(path),
);

export async function startMosquitto(undo: Undo): Promise<string> {
  if (!PROGRAM) throw new Error('expected Mosquitto on this machine: apt-get install mosquitto');
  const directory = temporaryDirectory(undo);
  const port = await freePort();
  const config = join(directory, 'mosquitto.conf');
  const lines = [
    `listener ${port} 127.0.0.1`,
    'allow_anonymous true',
    'max_queued_messages 0',
    'max_inflight_messages 1000',
    'user root',
  ];
  writeFileSync(config, `${lines.join('\n')}\n`);
  const child = spawn(PROGRAM, ['-c', config], { stdio: 'ignore' });
  undo(() => child.kill('SIGKILL'));
  while (!(await answers(port))) await new Promise((resolve) => setTimeout(resolve, 50));
  return `mqtt://127.0.0.1:${port}`;
}

function answers(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect(port, '127.0.0.1', () => {
      socket.destroy();
      resolve(true);
    });
    socket.once('error', () => resolve(false));
  });
}
