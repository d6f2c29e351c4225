/** The faults that are done to a service, by name, as long as they are meant to be. */
import type { Undo } from '../bench/processes.js';
import { makeSeason, type Season, SHORT_SEASON } from '../support/season.js';
import { tryBroker } from './broker.js';
import { tryClock } from './clock.js';
import type { Counts } from './counting.js';
import { DAMAGES, tryDamage } from './damage.js';
import { tryFullDisk, tryReadOnlyDisk } from './disk.js';
import { tryInflux } from './influx.js';
import { tryKills } from './kills.js';
import { tryLocked } from './locked.js';
import { tryMemory } from './memory.js';
import { tryNamespaces, tryPassage } from './network.js';

export interface Case {
  readonly name: string;
  readonly about: string;
  run(undo: Undo, kills: number): Promise<Counts>;
}

/** Whole, with its alarms; and a few days of it. Made when they are asked for. */
const season = (): Season => makeSeason();
const days = (): Season => makeSeason({ ...SHORT_SEASON, days: 10 });

export const CASES: readonly Case[] = [
  {
    name: 'kills',
    about: 'kill -9 at random moments, the built-in broker',
    run: (undo, kills) => tryKills(undo, { broker: 'built-in', kills, season: season() }),
  },
  {
    name: 'kills-mosquitto',
    about: 'kill -9 at random moments, a Mosquitto',
    run: (undo, kills) => tryKills(undo, { broker: 'mosquitto', kills, season: season() }),
  },
  {
    name: 'broker',
    about: 'a Mosquitto killed, held up, and garbage at its port',
    run: (undo) => tryBroker(undo, days()),
  },
  {
    name: 'influx-killed',
    about: 'garbage in the place of an InfluxDB, and it killed',
    run: (undo) => tryInflux(undo, { season: days(), held: false }),
  },
  {
    name: 'influx-held',
    about: 'garbage in the place of an InfluxDB, and it held up',
    run: (undo) => tryInflux(undo, { season: days(), held: true }),
  },
  { name: 'disk-full', about: 'the disk full', run: (undo) => tryFullDisk(undo, days()) },
  { name: 'disk-read-only', about: 'the disk read-only', run: (undo) => tryReadOnlyDisk(undo, days()) },
  {
    name: 'locked',
    about: 'the database locked by another process, and read by a backup',
    run: (undo) => tryLocked(undo, days()),
  },
  { name: 'clock', about: 'the clock set forward and back', run: (undo) => tryClock(undo, season()) },
  {
    name: 'network',
    about: 'the way to the broker cut without a word, and healed',
    run: (undo) => tryPassage(undo, days()),
  },
  {
    name: 'network-namespace',
    about: 'the link of a network of its own taken down and up',
    run: (undo) => tryNamespaces(undo, days()),
  },
  {
    name: 'memory',
    about: 'a day of a hundred probes at once',
    run: (undo) => tryMemory(undo, { probes: 100 }),
  },
  ...DAMAGES.map((damage) => ({
    name: `damage-${damage.replaceAll(' ', '-')}`,
    about: `the database damaged: ${damage}`,
    run: (undo: Undo) => tryDamage(undo, days(), damage),
  })),
];
