/** A day's outage of a hundred probes ends: all of it comes in at once, and the service stays within its memory. */
import { readFileSync } from 'node:fs';
import { DAY_ms, MINUTE_ms } from '../../services/core/model/time.js';
import type { Undo } from '../bench/processes.js';
import type { Message, Season } from '../support/season.js';
import { type Counts, holds, same } from './counting.js';
import { pidOf } from './places.js';
import { Probes } from './probes.js';
import { atRest, loaded, newestOf, Service } from './service.js';

/** Asked for, MiB. */
const MOST_MiB = 256;
/** Heap that V8 may use for what lives long, MiB: it would grow into whatever a machine has. */
const HEAP_MiB = 96;

export interface MemoryAsked {
  readonly probes: number;
  /** How long they were out of reach, ms. */
  readonly outage_ms?: number;
  /** Messages under way together. */
  readonly window?: number;
}

const EVERY_ms = 10 * MINUTE_ms;
const PROBES_a_bed = 6;
const FILLED = Date.UTC(2026, 4, 4, 8);
/** The outage begins two weeks after the filling. */
const FROM = FILLED + 14 * DAY_ms;

export async function tryMemory(
  undo: Undo,
  { probes: count, outage_ms = DAY_ms, window = 1000 }: MemoryAsked,
): Promise<Counts> {
  const season = outageOf(count, outage_ms);
  const directory = await loaded(undo, season);
  const service = await Service.start(undo, ['--data', directory, '--mqtt-listen', '127.0.0.1:0'], {
    environment: { NODE_OPTIONS: `--max-old-space-size=${HEAP_MiB}` },
  });
  const pid = pidOf(service.running.process);
  const atStart = highest_MiB(pid);
  const probes = Probes.at(undo, service.broker);
  await probes.publish(season.messages, window);
  await service.settled(newestOf(season));
  const highest = highest_MiB(pid);
  await service.stop();
  const { readings } = atRest(directory);
  same('readings kept', season.messages.length, readings);
  holds(highest < MOST_MiB, `less than ${MOST_MiB} MiB resident, got ${highest}`);
  return {
    ...{ probes: count, sent: probes.sent, acknowledged: probes.acknowledged, kept: readings },
    ...{ 'MiB resident at the start': atStart, 'MiB at the most': highest },
  };
}

/** What the kernel saw at the most. */
function highest_MiB(pid: number): number {
  const [, kB] = /^VmHWM:\s+(\d+) kB/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8')) ?? [];
  return Math.round(Number(kB) / 1024);
}

function outageOf(count: number, outage_ms: number): Season {
  const ids = Array.from({ length: count }, (_, at) => `p${String(at + 1).padStart(3, '0')}`);
  const from = new Date(FILLED).toISOString();
  const beds = Array.from({ length: Math.ceil(count / PROBES_a_bed) }, (_, at) => ({
    ...{ id: `pit-${at + 1}`, name: `Pit ${at + 1}`, kind: 'stepped-pit', filled: from },
    steps: [{ length: 150, width: 100, height: 60 }],
  }));
  const placed = (at: number): object => ({
    ...{ bed: `pit-${Math.floor(at / PROBES_a_bed) + 1}`, from, depth: 30, y: 50 },
    x: 15 + 20 * (at % PROBES_a_bed),
  });
  const messages: Message[] = [];
  for (let time = FROM; time < FROM + outage_ms; time += EVERY_ms)
    for (const [at, id] of ids.entries()) messages.push(messageOf(id, time, 21 + (at % 7) / 10));
  return {
    site: {
      version: 1,
      site: { id: 'test-ridge', name: 'Test ridge', timezone: 'Africa/Lusaka' },
      beds,
      probes: ids.map((id, at) => ({ id, placements: [placed(at)] })),
    },
    messages,
  };
}

function messageOf(probe: string, time: number, temperature_C: number): Message {
  const pack = [
    { bn: `urn:dev:ops:${probe}/`, bt: time / 1000, n: 'temperature', u: 'Cel', v: temperature_C },
    { n: 'humidity', u: '%RH', v: 82.5 },
    { n: 'battery', u: 'V', v: 3.1 },
  ];
  return { topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`, payload: JSON.stringify(pack) };
}
