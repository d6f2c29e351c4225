/** What is measured, as data: the load or the season, and the two sides that take it in. */
import { bareBroker, serveBuiltIn } from './built-in.js';
import { serveFromQueue, serveLive, subscriberFromQueue, subscriberLive } from './external.js';
import { forwardingMeasured } from './forwarding.js';
import { latencyMeasured } from './latency.js';
import type { Load } from './load.js';
import type { Measured } from './measured.js';
import { bareMemory, serveMemory } from './memory.js';
import { PLOT_readings, plotMeasured } from './plot.js';
import { readersMeasured } from './readers.js';
import { type BothSides, SEASON_readings, seasonMeasured } from './seasons.js';
import { SOAK_messages, soakMeasured } from './soak.js';
import { LONG_readings, startMeasured } from './start.js';
import { stationMeasured } from './station.js';
import { exportMeasured, importMeasured } from './tables.js';

export interface Case {
  readonly name: string;
  /** What ours and bare are measured on. */
  readonly what: string;
  readonly bareIs: string;
  /** Cannot be measured without. */
  readonly needsMosquitto?: true;
  /** The same. */
  readonly needsInfluxd?: true;
  readonly unit: 'messages/s' | 'readings/s' | 'rows/s' | 'MiB' | 's' | 'ms';
  /** Ratio of ours to bare that is asked for at least; absent where none is. */
  readonly wanted?: number;
  readonly sides: (size: Size) => Sides;
}

/** What is asked for, where it is not to be the case's own; a case has what of it makes sense there. */
export interface Size {
  /** Of the timed part. */
  readonly messages?: number | undefined;
  readonly minutes?: number | undefined;
  readonly probes?: number | undefined;
}

export interface Sides {
  readonly messages: number;
  /** Measures both once. @param oursFirst which of them is to go first, where one goes after the other */
  readonly round: (oursFirst: boolean) => Promise<BothSides>;
}

type Side = (load: Load) => Promise<Measured>;

const under =
  (load: Load, bare: Side, ours: Side): Case['sides'] =>
  ({ messages = load.timed }) => {
    const timed = { ...load, timed: messages };
    const round = async (oursFirst: boolean): Promise<BothSides> => {
      const early = oursFirst ? await ours(timed) : undefined;
      return { bare: await bare(timed), ours: early ?? (await ours(timed)) };
    };
    return { messages, round };
  };

/** Day by day in turns: what else the machine does in a season hurts both. */
const throughSeason = (rots: boolean): Case['sides'] => {
  return () => ({ messages: SEASON_readings, round: () => seasonMeasured(rots) });
};

/** Rows where none are asked for: nineteen years of a bed with a reading every ten minutes from each of six probes. */
const TABLE_rows = 1_000_000;

const ofTable =
  (measure: (rows: number) => Promise<BothSides>): Case['sides'] =>
  ({ messages = TABLE_rows }) => ({ messages, round: () => measure(messages) });

/** Ten beds with five probes each, and a shade probe. */
const FARM = { beds: 10, probesPerBed: 5 };

/**
 * Fourteen days of the farm's event time: the watch judges warmth from about the fifth on, and a service
 * that has just been started is not what runs for a season.
 */
const WARM_UP = 14 * 144 * 51;

/** One connection: Mosquitto's queue is then in order, and the last message is the last that is stored. */
const IN_ORDER: Load = { ...FARM, warmUp: WARM_UP, timed: 100_000, connections: 1, window: 1000 };

const SEASON_OF_A_BED =
  'time of one core for 150 days of a pit with six probes, every ten minutes, through the watch hour by hour';
const BARE_FILTER =
  'covariance update of the filter and the same step for each signal it keeps, as plain matrices of its size';

export const CASES: readonly Case[] = [
  {
    name: 'built-in',
    what: 'publisher to built-in broker to durable and watched, acknowledged at QoS 1',
    bareIs: 'aedes that counts in authorizePublish',
    unit: 'messages/s',
    wanted: 0.7,
    sides: under(
      { ...FARM, warmUp: WARM_UP, timed: 100_000, connections: 10, window: 1000 },
      bareBroker,
      serveBuiltIn,
    ),
  },
  {
    name: 'mosquitto',
    what: "Mosquitto's full queue to durable and watched, acknowledged at QoS 1",
    bareIs: 'mqtt.js that counts, from the same queue',
    unit: 'messages/s',
    wanted: 0.5,
    needsMosquitto: true,
    sides: under(IN_ORDER, subscriberFromQueue, serveFromQueue),
  },
  {
    name: 'mosquitto-live',
    what: 'publisher to Mosquitto to durable and watched, acknowledged at QoS 1',
    bareIs: 'mqtt.js that counts, behind the same publisher',
    unit: 'messages/s',
    wanted: 0.7,
    needsMosquitto: true,
    sides: under(IN_ORDER, subscriberLive, serveLive),
  },
  {
    name: 'memory',
    what: 'resident memory after 100 readings of each of 1,000 probes in 200 beds, built-in broker',
    bareIs: 'aedes that counts in authorizePublish',
    unit: 'MiB',
    sides: under(
      { beds: 200, probesPerBed: 5, warmUp: 0, timed: 100 * 1001, connections: 10, window: 1000 },
      bareMemory,
      serveMemory,
    ),
  },
  {
    name: 'forwarding',
    what: 'spool to InfluxDB in batches of 5,000, each gone from the spool once it is there',
    bareIs: 'the client writing the same points from memory, one batch after the other',
    unit: 'readings/s',
    wanted: 0.8,
    needsInfluxd: true,
    sides: ({ messages = 500_000 }) => ({
      messages,
      round: (oursFirst) => forwardingMeasured(messages, oursFirst),
    }),
  },
  {
    name: 'import',
    what: 'lines of a CSV of loggers into the archive, of processor time',
    bareIs: 'csv-parse that counts, and then SQLite that inserts',
    unit: 'rows/s',
    sides: ofTable(importMeasured),
  },
  {
    name: 'export',
    what: 'readings of a bed as CSV, of processor time; each reading is two rows with what the watch made of its hour',
    bareIs: 'bare SELECT of the readings',
    unit: 'rows/s',
    wanted: 0.5,
    sides: ofTable(exportMeasured),
  },
  {
    name: 'watch',
    what: `${SEASON_OF_A_BED}, sound`,
    bareIs: BARE_FILTER,
    unit: 's',
    sides: throughSeason(false),
  },
  {
    name: 'watch-rot',
    what: `${SEASON_OF_A_BED}, in which a cluster rots`,
    bareIs: BARE_FILTER,
    unit: 's',
    sides: throughSeason(true),
  },
  {
    name: 'plot',
    what: 'time of one core for a season of nine probes, every ten minutes, asked of the service over HTTP as a plot of 600 points each',
    bareIs: 'least and greatest of each part by SQL, of readings and of judged hours, on the same database',
    unit: 'ms',
    sides: () => ({ messages: PLOT_readings, round: plotMeasured }),
  },
  {
    name: 'start',
    what: 'from the start of the program to the first whole /api/beds, with three years of thirty beds',
    bareIs: 'the same beds without data',
    unit: 's',
    sides: () => ({ messages: LONG_readings, round: startMeasured }),
  },
  {
    name: 'latency',
    what: 'median from the publish of the reading that raises an alarm to the retained topic of its lamp',
    bareIs: 'median from a publish to what a subscriber sees, QoS 1, bare aedes',
    unit: 'ms',
    sides: ({ messages = 240 }) => ({ messages, round: () => latencyMeasured(messages) }),
  },
  {
    name: 'readers',
    what: '99th percentile of answers to fifty readers (beds, a plot, today, each with a stream) while readings come as fast as they are acknowledged',
    bareIs: 'the same readers of the same service while nothing comes',
    unit: 'ms',
    sides: ({ messages = 200_000 }) => ({
      messages,
      round: (oursFirst) => readersMeasured(messages, oursFirst),
    }),
  },
  {
    name: 'soak',
    what: 'resident memory after as many messages as 10,000 probes send in a day, through 99 days of 100 probes, connections made anew 24 times',
    bareIs: 'the same service half-way',
    unit: 'MiB',
    sides: ({ messages = SOAK_messages }) => ({ messages, round: () => soakMeasured(messages) }),
  },
  {
    name: 'station',
    what: 'resident memory after a burst of a day and a reading of each of 10,000 probes every ten minutes for 30 minutes',
    bareIs: 'aedes that counts in authorizePublish, with the same messages at the same time',
    unit: 'MiB',
    sides: ({ probes = 10_000, minutes = 30 }) => ({
      messages: Math.floor((probes * (1440 + minutes)) / 10),
      round: () => stationMeasured({ probes, minutes }),
    }),
  },
];
