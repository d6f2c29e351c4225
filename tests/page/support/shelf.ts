/** Two probes on the shelf beside the beds, the service's wall clock in the hand of the test, and baths for them. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import mqtt from 'mqtt';
import { expect } from 'vitest';
import { run } from '../../support/processes.js';
import type { Served } from './page.js';
import { copyTo } from './reading.js';
import { SEASON } from './season.js';
import { sharedByThese, sharedDirectory, sharedService, type Undo } from './shared.js';

const MINUTE_ms = 60_000;
const CLOCK = new URL('../../support/shifted-clock.mjs', import.meta.url).href;

/** How often a probe on the bench sends, s. */
const EVERY_s = 10;

export interface Shelf extends Served {
  /** Both probes rest at these values for twelve minutes, and the clock of the service goes with them. */
  bath(values: Readonly<Record<string, number>>): Promise<void>;
}

/** One for the tests of a file. */
export const sharedShelf = (): (() => Promise<Shelf>) => sharedByThese(begin);

async function begin(undo: Undo): Promise<Shelf> {
  const folder = sharedDirectory(undo);
  const data = join(folder, 'data');
  copyTo(data);
  const site = JSON.parse(readFileSync(join(SEASON, 'site.json'), 'utf8')) as { probes: object[] };
  const file = join(folder, 'site.json');
  writeFileSync(file, JSON.stringify({ ...site, probes: [...site.probes, { id: 'k01' }, { id: 'k02' }] }));
  expect(await run(['load', file, '--data', data])).toMatchObject({ code: 0 });
  const clock = join(folder, 'clock');
  writeFileSync(clock, '0');
  const environment = { NODE_OPTIONS: `--import ${CLOCK}`, SANDLARDER_TEST_CLOCK: clock };
  const served = await sharedService(undo, { data, environment });
  const client = await mqtt.connectAsync(served.mqtt);
  undo(() => client.endAsync(true));
  let ahead_ms = 0;
  return {
    ...served,
    bath: async (values) => {
      const from = Date.now() + ahead_ms;
      ahead_ms += 12 * MINUTE_ms;
      writeFileSync(clock, String(ahead_ms));
      served.service.process.kill('SIGUSR2');
      for (const [probe, value] of Object.entries(values))
        await client.publishAsync(topicOf(probe), packOf(from, value), { qos: 1 });
    },
  };
}

const topicOf = (probe: string): string => `sandlarder/v1/ridge-station/probes/${probe}/readings`;

/** Told to a hundredth, to and fro. */
function packOf(from: number, value: number): string {
  const count = (12 * 60) / EVERY_s - 2;
  const records = Array.from({ length: count }, (_, step) => ({
    ...{ n: 'temperature', u: 'Cel', v: Math.round(100 * value + (step % 2)) / 100 },
    t: (step + 1) * EVERY_s,
  }));
  const [first, ...rest] = records;
  return JSON.stringify([{ bt: from / 1000, ...first }, ...rest]);
}
