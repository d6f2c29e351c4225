/** What happens in a shed, done to the built service: short forms of the cases of `npm run faults`. */
import { expect, test } from 'vitest';
import { cleaningUp, type Undo } from '../bench/processes.js';
import { tryClock } from '../faults/clock.js';
import type { Counts } from '../faults/counting.js';
import { tryDamage } from '../faults/damage.js';
import { tryFullDisk, tryReadOnlyDisk } from '../faults/disk.js';
import { tryInflux } from '../faults/influx.js';
import { tryLocked } from '../faults/locked.js';
import { tryMemory } from '../faults/memory.js';
import { makeSeason, SHORT_SEASON } from '../support/season.js';

const days = makeSeason({ ...SHORT_SEASON, days: 2 });
const season = makeSeason({ ...SHORT_SEASON, days: 18, rotFromDay: 8, wetFromDay: 13 });

/** With the counts in its name where it fails. */
const held = (name: string, run: (undo: Undo) => Promise<Counts>): void => {
  test(name, async () => {
    const counts = await cleaningUp(run);
    if ('kept' in counts) expect(counts['kept']).toBeGreaterThan(0);
  });
};

held('the disk full: it says so, acknowledges nothing, and goes on by itself', (undo) =>
  tryFullDisk(undo, days),
);
held('the disk read-only: it says so, and loses nothing', (undo) => tryReadOnlyDisk(undo, days));
held('the database locked, and read by a backup', (undo) => tryLocked(undo, days));
held('the clock set forward and back: no storm, nothing lost, and told', (undo) => tryClock(undo, season, 2));
held('garbage in the place of an InfluxDB, and it killed', (undo) =>
  tryInflux(undo, { season: days, held: false }),
);
held('a burst of a hundred probes stays within its memory', (undo) =>
  tryMemory(undo, { probes: 100, outage_ms: 3 * 3_600_000 }),
);
held('a page of readings damaged: told, and mended by the command that is named', (undo) =>
  tryDamage(undo, season, 'page of readings'),
);
