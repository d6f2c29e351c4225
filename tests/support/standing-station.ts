/** A station over a real database, without sockets: what is committed, watched and told. It stands until it is closed. */
import { ARCHIVE_SCHEMA, createArchive, openDatabase } from '../../services/archive/index.js';
import { checkSiteFile } from '../../services/core/model/site-file.js';
import { sandWatch } from '../../services/core/watch/sand-watch.js';
import type { Watch } from '../../services/core/watch/watch.js';
import { readMessage } from '../../services/intake/index.js';
import { adoptSome } from '../../services/joining/adopt.js';
import { AlarmKeeper } from '../../services/joining/alarm-keeper.js';
import { CoverageDesk } from '../../services/joining/coverage-desk.js';
import { Station } from '../../services/joining/station.js';
import { TakeIn } from '../../services/joining/take-in.js';
import { createViews } from '../../services/joining/views.js';
import { createRegistry, REGISTRY_SCHEMA } from '../../services/registry/index.js';
import type { Message } from './season.js';

/** Wall clock of these tests, ms: long after every season in them. */
export const NOW = Date.UTC(2027, 0, 1);

const ALL_ALARMS = { limit: 1000 } as const;

/** @param now wall clock, ms */
export function standStation(directory: string, { watch = sandWatch as Watch, now = () => NOW } = {}) {
  const database = openDatabase(directory, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
  const archive = createArchive(database);
  const registry = createRegistry(database);
  const alarms = new AlarmKeeper(registry, {
    webhooks: [],
    now,
    onChange: ({ bed }, ids) => station.changes.alarms(bed.id, ids),
    onRaised: () => undefined,
    onUnusable: () => undefined,
  });
  const station: Station = new Station({ database, archive, registry, watch, alarms });
  const takeIn = new TakeIn(station, readMessage);
  const views = createViews(station, new CoverageDesk(), now);
  return {
    directory,
    database,
    archive,
    registry,
    station,
    takeIn,
    views,
    /** @param at wall clock, ms */
    load: (site: unknown, at = NOW) => registry.sites.load(checkSiteFile('site.json', site), at),
    commit: (messages: readonly Message[]) =>
      takeIn.commit(
        messages.map(({ topic, payload }) => ({ topic, payload: Buffer.from(payload), receivedAt: NOW })),
      ),
    /** Judges everything that late readings changed, and takes in adopted probes. */
    settle: () => {
      while (adoptSome(station, takeIn, NOW));
      for (const watcher of station.dirty()) {
        const { bed } = watcher.known;
        do station.inTransaction(() => station.judgeAgain(bed.id));
        while (station.watchers.get(bed.id)?.dirty && !station.failures.has(bed.id));
      }
    },
    /** Every alarm listed, as JSON text. */
    alarmText: () => JSON.stringify(views.alarms(ALL_ALARMS).alarms, null, 1),
    close: () => database.close(),
  };
}

export type TestStation = ReturnType<typeof standStation>;

/** Parts of a list, each as long as the given number of items. */
export function inBatches<Item>(items: readonly Item[], size: number): Item[][] {
  const batches: Item[][] = [];
  for (let start = 0; start < items.length; start += size) batches.push(items.slice(start, start + size));
  return batches;
}
