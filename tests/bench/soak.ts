/**
 * As many messages as a hundred big stations send in a day (10,000 probes, a reading each ten minutes), as fast as one takes
 * them: of its 100 probes that is a season of 99 days. Its own middle is what the end is held against.
 */
import { statSync } from 'node:fs';
import { join } from 'node:path';
import { startPublisher } from './built-in.js';
import type { Figure } from './figures.js';
import type { Load } from './load.js';
import type { Measured } from './measured.js';
import { cleaningUp, freePort, type Undo } from './processes.js';
import { handlesOf, resident_MiB } from './resident.js';
import type { BothSides } from './seasons.js';
import { expectAllDone, type Service, startService, untilJudged } from './service.js';

export const SOAK_messages = 10_000 * 144;

/** Looks at it, evenly through the messages; as often every connection is closed and made anew. */
const PARTS = 24;
/** The first of the two looks that are held against each other: by then watches are as large as they become. */
const MIDDLE = PARTS / 2;

/** Asked for at the most: of what it held in the middle; bytes of disk a reading, with what was judged and states of watches. */
const GOAL = { growth: 1.1, handles: 1, bytes: 120 } as const;

/** The database and its log, which comes to 16 MB at the most: of a short run that is most of it. */
const FILES = ['sandlarder.db', 'sandlarder.db-wal'] as const;

interface Look {
  readonly MiB: number;
  readonly handles: number;
  readonly stored_bytes: number;
}

const lookAt = ({ child, directory }: Service): Look => ({
  MiB: resident_MiB(child.pid),
  handles: handlesOf(child.pid),
  stored_bytes: FILES.reduce((sum, file) => sum + statSync(join(directory, file)).size, 0),
});

/** One part of the load, over connections of its own that are closed after it. */
const publishPart = (url: string, load: Load): Promise<void> =>
  cleaningUp(async (undo: Undo) => {
    const publisher = await startPublisher(undo, url, load);
    await publisher.ask('timed');
  });

async function soak(undo: Undo, load: Load): Promise<Look[]> {
  const service = await startService(undo, load, '--mqtt-listen', `127.0.0.1:${await freePort()}`);
  const looks: Look[] = [];
  const each = load.timed / PARTS;
  for (let part = 0; part < PARTS; part += 1) {
    await publishPart(service.url, { ...load, begins: part * each, timed: each });
    await untilJudged(service.health);
    looks.push(lookAt(service));
  }
  await expectAllDone(service, load);
  return looks;
}

export const soakMeasured = (messages: number): Promise<BothSides> =>
  cleaningUp(async (undo) => {
    const load: Load = {
      ...{ beds: 20, probesPerBed: 5, warmUp: 0, connections: 10, window: 1000 },
      timed: Math.ceil(messages / PARTS) * PARTS,
    };
    const looks = await soak(undo, load);
    const [middle, end] = [looks[MIDDLE - 1], looks.at(-1)];
    if (!middle || !end) throw new Error(`expected ${PARTS} looks, got ${looks.length}`);
    return { bare: sideOf(middle), ours: { ...sideOf(end), figures: figuresOf(middle, end, load) } };
  });

const sideOf = ({ MiB, handles, stored_bytes }: Look): Measured => ({
  value: MiB,
  note: `${handles} handles open, ${(stored_bytes / 2 ** 20).toFixed(0)} MiB on disk`,
});

const figuresOf = (middle: Look, end: Look, load: Load): readonly Figure[] => [
  { name: 'memory beside the middle', value: end.MiB / middle.MiB, unit: '', goal: GOAL.growth },
  { name: 'handles beside the middle', value: end.handles / middle.handles, unit: '', goal: GOAL.handles },
  { name: 'bytes on disk a reading', value: end.stored_bytes / load.timed, unit: '', goal: GOAL.bytes },
];
