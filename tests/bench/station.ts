/**
 * A hundred big stations' probes on one service: a day's readings, a day of outage made up for in one burst, and then a reading of every probe
 * each ten minutes for as long as is asked. The same messages go to a bare aedes at the same time.
 */
import { setTimeout as pause } from 'node:timers/promises';
import mqtt, { type MqttClient } from 'mqtt';
import { linearRegression } from 'simple-statistics';
import { HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { inWords, spreadOf } from './figured.js';
import { type Load, packAt, probesOf } from './load.js';
import type { Measured } from './measured.js';
import { cleaningUp, freePort, startOwn, type Undo } from './processes.js';
import { resident_MiB } from './resident.js';
import type { BothSides } from './seasons.js';
import { type Service, startService, untilJudged } from './service.js';

export interface StationSize {
  readonly probes: number;
  /** Of the steady part. */
  readonly minutes: number;
}

/** A bed has five probes. */
const PROBES_A_BED = 5;
const CONNECTIONS = 20;
/** Packs on their way in a burst, of each connection. */
const WINDOW = 10;
/** Times of a day's buffer. */
const BUFFERED = 144;
/** Between looks at the memory, ms. */
const LOOK_ms = 5_000;
/** Asked for at the most. */
const GOAL_MiB = 300;
/** What of growth is not told from noise, MiB an hour. */
const FLAT_MiB_h = 20;

interface Side {
  readonly pid: number | undefined;
  readonly clients: readonly MqttClient[];
  readonly acknowledged_ms: number[];
  readonly resident: { at_h: number; MiB: number }[];
}

async function connected(undo: Undo, url: string): Promise<MqttClient[]> {
  const clients = await Promise.all(
    Array.from({ length: CONNECTIONS }, () => mqtt.connectAsync(url, { reconnectPeriod: 0 })),
  );
  undo(() => Promise.all(clients.map((client) => client.endAsync(true))));
  return clients;
}

/** Every probe's buffer of a day; the seconds until all of it is acknowledged. */
async function burst({ clients }: Side, load: Load, firstRound: number): Promise<number> {
  const began = performance.now();
  let next = 0;
  const work = async (client: MqttClient): Promise<void> => {
    while (next < probesOf(load)) {
      const { topic, payload } = packAt(next, firstRound, BUFFERED);
      next += 1;
      await client.publishAsync(topic, payload, { qos: 1 });
    }
  };
  await Promise.all(clients.flatMap((client) => Array.from({ length: WINDOW }, () => work(client))));
  return (performance.now() - began) / 1000;
}

/** A reading of every probe each ten minutes, spread over them, to both sides at once. */
async function steady(sides: readonly Side[], load: Load, from: number, minutes: number): Promise<void> {
  const probes = probesOf(load);
  const total = Math.floor((probes * minutes) / 10);
  const began = performance.now();
  const each_ms = (10 * MINUTE_ms) / probes;
  let looked = 0;
  for (let index = 0; index < total; index += 1) {
    const due = began + index * each_ms;
    if (due > performance.now()) await pause(due - performance.now());
    for (const side of sides) send(side, index % probes, from + Math.floor(index / probes));
    if (performance.now() - looked < LOOK_ms) continue;
    looked = performance.now();
    for (const { pid, resident } of sides)
      resident.push({ at_h: (looked - began) / HOUR_ms, MiB: resident_MiB(pid) });
  }
  while (sides.some(({ acknowledged_ms }) => acknowledged_ms.length < total)) await pause(LOOK_ms / 100);
}

function send({ clients, acknowledged_ms }: Side, probe: number, round: number): void {
  const { topic, payload } = packAt(probe, round, 1);
  const sent = performance.now();
  clients[probe % CONNECTIONS]?.publish(topic, payload, { qos: 1 }, (error) => {
    if (error) throw error;
    acknowledged_ms.push(performance.now() - sent);
  });
}

/** From the middle on: what a start and the burst left is given back by then. */
function growth_MiB_h(resident: Side['resident']): number {
  const later = resident.slice(Math.floor(resident.length / 2));
  return later.length < 2 ? 0 : linearRegression(later.map(({ at_h, MiB }) => [at_h, MiB])).m;
}

const TOLD = [0, 0.25, 0.5, 0.75, 1];

function measuredOf(side: Side, before_MiB: number, burst_s: number): Measured {
  const { resident } = side;
  const value = resident.at(-1)?.MiB ?? Number.NaN;
  const on = TOLD.map((share) => resident[Math.round(share * (resident.length - 1))]?.MiB.toFixed(0));
  const growth = growth_MiB_h(resident);
  return {
    value,
    note: `${before_MiB.toFixed(0)} MiB at the start, then ${on.join(', ')} MiB in quarters, ${growth.toFixed(1)} MiB an hour in the second half; burst acknowledged in ${burst_s.toFixed(1)} s, then a reading: ${inWords(spreadOf(side.acknowledged_ms))}`,
    figures: [
      {
        name: 'resident at the highest',
        value: Math.max(...resident.map(({ MiB }) => MiB)),
        unit: 'MiB',
        goal: GOAL_MiB,
      },
      { name: 'growth in the second half, an hour', value: growth, unit: 'MiB', goal: FLAT_MiB_h },
    ],
  };
}

async function expectRows(service: Service, messages: number): Promise<void> {
  await untilJudged(service.health);
  const rows = service.stored.rows();
  if (rows !== messages) throw new Error(`rows of readings: expected ${messages}, got ${rows}`);
}

export const stationMeasured = ({ probes, minutes }: StationSize): Promise<BothSides> =>
  cleaningUp(async (undo) => {
    const beds = Math.ceil(probes / PROBES_A_BED);
    const load: Load = { beds, probesPerBed: PROBES_A_BED, warmUp: 0, timed: 0, connections: 1, window: 1 };
    const broker = await startOwn<number>(undo, './bare-broker.js');
    const service = await startService(undo, load, '--mqtt-listen', `127.0.0.1:${await freePort()}`);
    const sideOf = async (pid: number | undefined, url: string): Promise<Side> => ({
      ...{ pid, clients: await connected(undo, url), acknowledged_ms: [], resident: [] },
    });
    const bare = await sideOf(broker.child.pid, `mqtt://127.0.0.1:${broker.first}`);
    const ours = await sideOf(service.child.pid, service.url);
    const before = [bare, ours].map(({ pid }) => resident_MiB(pid));
    const bursts: number[] = [];
    await Promise.all([bare, ours].map((side) => burst(side, load, 0)));
    await untilJudged(service.health);
    for (const side of [bare, ours]) bursts.push(await burst(side, load, BUFFERED));
    await untilJudged(service.health);
    await steady([bare, ours], load, 2 * BUFFERED, minutes);
    await expectRows(service, 2 * BUFFERED * probesOf(load) + ours.acknowledged_ms.length);
    const measured = (side: Side, at: number): Measured =>
      measuredOf(side, before[at] as number, bursts[at] as number);
    return { bare: measured(bare, 0), ours: measured(ours, 1) };
  });
