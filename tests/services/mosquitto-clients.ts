/** Mosquitto's own command-line clients, as a person would use them. */
import { type ChildProcess, spawn } from 'node:child_process';
import { createInterface } from 'node:readline';

/** Publishes the lines given, each as a message of its own; settles with the exit code when all are acknowledged. */
export function publishLines(
  port: number,
  topic: string,
  lines: readonly string[],
  ...more: string[]
): Promise<number> {
  const child = spawn('mosquitto_pub', ['-h', '127.0.0.1', '-p', `${port}`, '-t', topic, '-l', ...more], {
    stdio: ['pipe', 'ignore', 'ignore'],
  });
  child.stdin.end(lines.map((line) => `${line}\n`).join(''));
  return exitOf(child);
}

/** Publishes one message; settles with the exit code. */
export function publishOne(port: number, topic: string, text: string, ...more: string[]): Promise<number> {
  const options = ['-h', '127.0.0.1', '-p', `${port}`, '-t', topic, '-m', text, ...more];
  return exitOf(spawn('mosquitto_pub', options, { stdio: 'ignore' }));
}

/** Subscribes and gives what it prints for the first message. */
export async function firstMessage(port: number, filter: string, ...more: string[]): Promise<string> {
  const options = ['-h', '127.0.0.1', '-p', `${port}`, '-t', filter, '-C', '1', '-W', '20', '-v', ...more];
  const child = spawn('mosquitto_sub', options, { stdio: ['ignore', 'pipe', 'ignore'] });
  for await (const line of createInterface({ input: child.stdout })) return line;
  return '';
}

const exitOf = (child: ChildProcess): Promise<number> =>
  new Promise((resolve, reject) => {
    child.once('error', reject);
    child.once('exit', (code) => resolve(code ?? -1));
  });
