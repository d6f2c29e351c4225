/** From the start of the program to its answers: with three years of thirty beds, and with the same beds and no data. */
import { spawn } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { get } from 'node:http';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import mqtt from 'mqtt';
import { median } from 'simple-statistics';
import { HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { LONG, longSite, probeId, SITE, writeLongStation } from './long-station.js';
import type { Measured } from './measured.js';
import { cleaningUp, expectFrom, freePort, stop, temporaryDirectory, type Undo } from './processes.js';
import { processor_s } from './resident.js';
import type { BothSides } from './seasons.js';
import { loadFile, MAIN } from './service.js';

/** Starts of each side, in turns: the median counts. */
const STARTS = 5;
/** Between attempts to ask, ms. */
const ASK_ms = 5;
/** Of the time from the start, s. */
const GOAL_s = 3;

/** Seconds from the start of the process. */
interface Started {
  /** The first `/api/health` that says ok. */
  readonly health_s: number;
  /** The first whole `/api/beds`. */
  readonly beds_s: number;
  /** Processor time by then: of a machine with other work the better measure. */
  readonly processor_s: number;
  /** Readings of all probes that close an hour of every bed, from the first sent to the last acknowledged. */
  readonly readings_s: number;
}

function ask(url: string): Promise<string | undefined> {
  return new Promise((resolve) => {
    const request = get(url, { agent: false }, (answer) => {
      let text = '';
      answer.on('data', (chunk) => {
        text += String(chunk);
      });
      answer.on('end', () => resolve(answer.statusCode === 200 ? text : undefined));
    });
    request.on('error', () => resolve(undefined));
  });
}

async function untilAnswered(url: string, isIt: (text: string) => boolean): Promise<void> {
  for (;;) {
    const text = await ask(url);
    if (text !== undefined && isIt(text)) return;
    await pause(ASK_ms);
  }
}

const hasAllBeds = (text: string): boolean => (JSON.parse(text) as unknown[]).length === LONG.beds;

async function startOnce(directory: string, round_ms: number): Promise<Started> {
  return cleaningUp(async (undo) => {
    const [http, broker] = [await freePort(), await freePort()];
    const began = performance.now();
    const seconds = (): number => (performance.now() - began) / 1000;
    const child = spawn(
      process.execPath,
      [...process.execArgv, MAIN, 'serve', '--data', directory].concat([
        '--listen',
        `127.0.0.1:${http}`,
        '--mqtt-listen',
        `127.0.0.1:${broker}`,
      ]),
      { stdio: 'ignore' },
    );
    undo(() => stop(child));
    const base = `http://127.0.0.1:${http}`;
    const asked = (path: string, isIt: (text: string) => boolean): Promise<number> =>
      expectFrom(child, path, untilAnswered(`${base}${path}`, isIt)).then(seconds);
    const health_s = await asked('/api/health', (text) => text.includes('"status":"ok"'));
    const beds_s = await asked('/api/beds', hasAllBeds);
    const taken_s = processor_s(child.pid);
    return {
      health_s,
      beds_s,
      processor_s: taken_s,
      readings_s: await sendRound(undo, `mqtt://127.0.0.1:${broker}`, round_ms),
    };
  });
}

/** @param at event time of the readings, ms */
async function sendRound(undo: Undo, url: string, at: number): Promise<number> {
  const client = await mqtt.connectAsync(url, { reconnectPeriod: 0 });
  undo(() => client.endAsync(true));
  const began = performance.now();
  const probes = Array.from({ length: LONG.beds * LONG.probesPerBed + 1 }, (_, index) => probeId(index));
  await Promise.all(
    probes.map((probe) =>
      client.publishAsync(
        `sandlarder/v1/${SITE}/probes/${probe}/readings`,
        `[{"bt":${at / 1000},"n":"temperature","u":"Cel","v":20.5},{"n":"humidity","u":"%RH","v":86.1}]`,
        { qos: 1 },
      ),
    ),
  );
  return (performance.now() - began) / 1000;
}

function measuredFrom(starts: readonly Started[]): Measured {
  const of = (name: keyof Started): number => median(starts.map((start) => start[name]));
  const [health, beds, readings] = [of('health_s'), of('beds_s'), of('readings_s')];
  const taken = of('processor_s');
  const figure = (name: string, value: number) => ({ name, value, unit: 's', goal: GOAL_s });
  return {
    value: beds,
    note: `health ${health.toFixed(2)} s, ${taken.toFixed(2)} s of processor time by then, a reading of every probe then acknowledged within ${readings.toFixed(2)} s`,
    figures: [
      figure('first /api/health that says ok', health),
      figure('first whole /api/beds', beds),
      figure('readings of all probes acknowledged', readings),
    ],
  };
}

export const LONG_readings =
  ((LONG.days * 24 * 60) / LONG.everyMinutes) * (LONG.beds * LONG.probesPerBed + 1);

export const startMeasured = (): Promise<BothSides> =>
  cleaningUp(async (undo) => {
    const [full, empty] = [temporaryDirectory(undo), temporaryDirectory(undo)];
    // So that the hours that are closed below lie in the past.
    const endsAt = Math.floor(Date.now() / HOUR_ms - STARTS - 1) * HOUR_ms;
    const file = join(empty, 'site.json');
    writeFileSync(file, JSON.stringify(longSite(endsAt)));
    await loadFile(empty, file);
    writeLongStation(full, endsAt);
    const [ours, bare]: [Started[], Started[]] = [[], []];
    for (let start = 0; start < STARTS; start += 1) {
      const at = endsAt + (start + 1) * HOUR_ms + 10 * MINUTE_ms;
      bare.push(await startOnce(empty, at));
      ours.push(await startOnce(full, at));
    }
    return { bare: measuredFrom(bare), ours: measuredFrom(ours) };
  });
