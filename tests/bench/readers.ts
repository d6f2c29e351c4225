/**
 * Fifty people at their pages while readings come as fast as they are acknowledged: how long answers take beside those of
 * the same service when nothing comes, and how many readings come beside as many without anybody asking.
 */
import { Agent, get } from 'node:http';
import { setTimeout as pause } from 'node:timers/promises';
import { type Published, startPublisher } from './built-in.js';
import { inWords, spreadOf } from './figured.js';
import { bedId, type Load, timeOfRound } from './load.js';
import type { Measured } from './measured.js';
import { cleaningUp, freePort, type Own, type Undo } from './processes.js';
import type { BothSides } from './seasons.js';
import { expectAllDone, type Service, startService } from './service.js';

const READERS = 50;
/** Between an answer and the same reader's next question, ms: a page asks anew at most once a second. */
const REST_ms = 1_000;
/** Questions before that are not timed: the code is compiled by then, ms. */
const WARM_UP_ms = 5_000;
/** For how long nothing but questions comes, ms. */
const QUIET_ms = 20_000;
const BEDS = 10;
/** Two days, of which the series tells. */
const WARM_UP = 2 * 144 * 51;
/** Asked for at least: readings that come beside fifty readers, of those that come alone. */
const SHARE_OF_INGEST = 0.5;

/** A day of readings for a plot. */
const series = (bed: number): string =>
  `/api/beds/${bedId(bed)}/readings?from=${timeOfRound(0)}&to=${timeOfRound(144)}&points=600`;

const QUESTIONS: readonly ((reader: number) => string)[] = [
  () => '/api/beds',
  (reader) => series(reader % BEDS),
  () => '/api/today',
];

function answered(url: string, agent: Agent): Promise<number> {
  const began = performance.now();
  return new Promise((resolve, reject) => {
    const request = get(url, { agent }, (answer) => {
      answer.resume();
      answer.once('end', () => {
        if (answer.statusCode === 200) resolve(performance.now() - began);
        else reject(new Error(`${url}: expected 200, got ${answer.statusCode}`));
      });
    });
    request.once('error', reject);
  });
}

/** Opens a stream of what changes, as a page does. */
function listening(undo: Undo, base: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const request = get(`${base}/api/stream`, { agent: false }, (answer) => {
      answer.resume();
      answer.once('error', () => undefined);
      resolve();
    });
    request.once('error', reject);
    undo(() => request.destroy());
  });
}

/** The readers ask until they are told to stop. @returns what stops them, with the time of each answer, ms */
function asking(undo: Undo, base: string): () => Promise<number[]> {
  const agent = new Agent({ keepAlive: true });
  undo(() => agent.destroy());
  const times: number[] = [];
  let going = true;
  const reader = async (number: number): Promise<void> => {
    await pause((REST_ms * number) / READERS);
    for (let asked = number; going; asked += 1) {
      const path = QUESTIONS[asked % QUESTIONS.length]?.(number) ?? '';
      times.push(await answered(`${base}${path}`, agent));
      await pause(REST_ms);
    }
  };
  const all = Promise.all(Array.from({ length: READERS }, (_, number) => reader(number)));
  return async () => {
    going = false;
    await all;
    return times;
  };
}

/** Takes a load in. @returns messages a second, and the times of the readers' answers where there were any */
async function ingest(
  load: Load,
  isRead: boolean,
): Promise<{ rate: number; quiet: number[]; busy: number[] }> {
  return cleaningUp(async (undo) => {
    const service = await startService(undo, load, '--mqtt-listen', `127.0.0.1:${await freePort()}`);
    const publisher = await startPublisher(undo, service.url, load);
    await publisher.ask<Published>('warm-up');
    const quiet = isRead ? await quietly(undo, service) : [];
    const stop = isRead ? asking(undo, service.http) : async () => [];
    const rate = await timed(publisher, load);
    const busy = await stop();
    await expectAllDone(service, load);
    return { rate, quiet, busy };
  });
}

async function quietly(undo: Undo, { http }: Service): Promise<number[]> {
  await Promise.all(Array.from({ length: READERS }, () => listening(undo, http)));
  const warm = asking(undo, http);
  await pause(WARM_UP_ms);
  await warm();
  const stop = asking(undo, http);
  await pause(QUIET_ms);
  return stop();
}

async function timed(publisher: Own, load: Load): Promise<number> {
  const { seconds } = await publisher.ask<Published>('timed');
  return load.timed / seconds;
}

const measuredOf = (times_ms: readonly number[], also: string): Measured => {
  const spread = spreadOf(times_ms);
  return { value: spread.p99_ms, note: `${inWords(spread)}, of ${times_ms.length}; ${also}` };
};

export async function readersMeasured(messages: number, oursFirst: boolean): Promise<BothSides> {
  const load: Load = {
    ...{ beds: BEDS, probesPerBed: 5, connections: 10, window: 1000 },
    ...{ warmUp: WARM_UP, timed: messages },
  };
  const early = oursFirst ? await ingest(load, true) : undefined;
  const alone = await ingest(load, false);
  const { rate, quiet, busy } = early ?? (await ingest(load, true));
  const told = `${rate.toFixed(0)} messages/s come, ${alone.rate.toFixed(0)} without readers`;
  return {
    bare: measuredOf(quiet, 'nothing comes'),
    ours: {
      ...measuredOf(busy, told),
      figures: [
        {
          name: 'messages/s without readers, beside those with',
          value: alone.rate / rate,
          unit: '',
          goal: 1 / SHARE_OF_INGEST,
        },
      ],
    },
  };
}
