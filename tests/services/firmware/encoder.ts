/** Speaks to the compiled encoder: a command on a line, a line back. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { afterAll } from 'vitest';
import { compileHost } from './compiled.js';

/** The answers of `result.h`. */
export const RESULT = {
  OK: 0,
  THINNED: 1,
  CLOCK_MOVED: 2,
  ALL_ZERO: -1,
  ALL_ONE: -2,
  BAD_CHECKSUM: -3,
  BAD_FRAME: -4,
  POWER_ON: -5,
  DISCONNECTED: -6,
  OUT_OF_RANGE: -7,
  NO_VALUE: -8,
  EMPTY: -9,
  BAD_TIME: -10,
  TOO_SMALL: -11,
  BAD_ID: -12,
} as const;

/** A pack as the encoder gives it. */
export interface Pack {
  readonly result: number;
  readonly length: number;
  readonly readings: number;
  readonly last: number;
  readonly text: string;
}

/** One value of a reading in thousandths, or undefined where it is absent. */
export type Milli = number | undefined;

/** Starts the encoder; what the sanitizers find ends it, and fails whatever waits for its next line. */
export function startEncoder() {
  const host = spawn(compileHost(), { stdio: ['pipe', 'pipe', 'pipe'] });
  let problems = '';
  host.stderr.on('data', (chunk: Buffer) => {
    problems += chunk.toString();
  });
  host.stdin.on('error', () => undefined);
  const waiting: { resolve: (line: string) => void; reject: (error: Error) => void }[] = [];
  createInterface(host.stdout).on('line', (line) => waiting.shift()?.resolve(line));
  const ended = once(host, 'close').then(([code]) => {
    for (const { reject } of waiting) reject(new Error(`the encoder ended with ${code}: ${problems}`));
    return code as number | null;
  });
  afterAll(async () => {
    host.stdin.end();
    if ((await ended) !== 0) throw new Error(`the encoder ended badly: ${problems}`);
  });
  const ask = (...words: readonly (string | number | undefined)[]): Promise<string> =>
    new Promise((resolve, reject) => {
      waiting.push({ resolve, reject });
      host.stdin.write(`${words.map((word) => word ?? '-').join(' ')}\n`);
    });
  const numbers = async (...words: readonly (string | number | undefined)[]): Promise<number[]> =>
    (await ask(...words)).split(' ').map(Number);
  return { ask, numbers, ...queueOf(ask, numbers) };
}

type Ask<Answer> = (...words: readonly (string | number | undefined)[]) => Promise<Answer>;

function queueOf(ask: Ask<string>, numbers: Ask<number[]>) {
  return {
    begin: async (capacity: number, firstSequence = 1) =>
      (await numbers('begin', capacity, firstSequence))[0],
    add: async (at_s: number, temperature?: Milli, humidity?: Milli, battery?: Milli) =>
      (await numbers('add', at_s, temperature, humidity, battery))[0],
    release: async (last: number) => (await numbers('release', last))[0],
    queue: async () => {
      const [lost, ...waiting] = (await ask('queue')).split(' ');
      const readings = waiting.map((entry) => entry.split(':').map(Number));
      return {
        lost: Number(lost),
        sequences: readings.map(([n]) => n),
        times: readings.map(([, at]) => at ?? 0),
      };
    },
    pack: async (size: number, now_s: number): Promise<Pack> => {
      const answer = await ask('pack', size, now_s);
      const [result = 0, length = 0, readings = 0, last = 0] = answer.split(' ').map(Number);
      return { result, length, readings, last, text: answer.split(' ').slice(4).join(' ') };
    },
  };
}

export type Encoder = ReturnType<typeof startEncoder>;
