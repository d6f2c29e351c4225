/** What is measured, as data: the load, and the two sides that take it in. */
import { bareBroker, serveBuiltIn } from './built-in.js';
import { serveFromQueue, serveLive, subscriberFromQueue, subscriberLive } from './external.js';
import type { Load } from './load.js';
import type { Measured } from './measured.js';
import { bareMemory, serveMemory } from './memory.js';

export interface Case {
  readonly name: string;
  /** What ours and bare are measured on. */
  readonly what: string;
  readonly bareIs: string;
  /** Cannot be measured without. */
  readonly needsMosquitto?: true;
  readonly unit: 'messages/s' | 'MiB';
  /** Ratio of ours to bare that is asked for at least; absent where none is. */
  readonly wanted?: number;
  readonly load: Load;
  readonly bare: (load: Load) => Promise<Measured>;
  readonly ours: (load: Load) => Promise<Measured>;
}

/** Ten beds with five probes each, and a shade probe. */
const FARM = { beds: 10, probesPerBed: 5 };

/**
 * Fourteen days of the farm's event time: the watch judges warmth from about the fifth on, and a service
 * that has just been started is not what runs for a season.
 */
const WARM_UP = 14 * 144 * 51;

/** One connection: Mosquitto's queue is then in order, and the last message is the last that is stored. */
const IN_ORDER: Load = { ...FARM, warmUp: WARM_UP, timed: 100_000, connections: 1, window: 1000 };

export const CASES: readonly Case[] = [
  {
    name: 'built-in',
    what: 'publisher to built-in broker to durable and watched, acknowledged at QoS 1',
    bareIs: 'aedes that counts in authorizePublish',
    unit: 'messages/s',
    wanted: 0.5,
    load: { ...FARM, warmUp: WARM_UP, timed: 100_000, connections: 10, window: 1000 },
    bare: bareBroker,
    ours: serveBuiltIn,
  },
  {
    name: 'mosquitto',
    what: "Mosquitto's full queue to durable and watched, acknowledged at QoS 1",
    bareIs: 'mqtt.js that counts, from the same queue',
    unit: 'messages/s',
    wanted: 0.5,
    load: IN_ORDER,
    needsMosquitto: true,
    bare: subscriberFromQueue,
    ours: serveFromQueue,
  },
  {
    name: 'mosquitto-live',
    what: 'publisher to Mosquitto to durable and watched, acknowledged at QoS 1',
    bareIs: 'mqtt.js that counts, behind the same publisher',
    unit: 'messages/s',
    wanted: 0.5,
    load: IN_ORDER,
    needsMosquitto: true,
    bare: subscriberLive,
    ours: serveLive,
  },
  {
    name: 'memory',
    what: 'resident memory after 100 readings of each of 1,000 probes in 200 beds, built-in broker',
    bareIs: 'aedes that counts in authorizePublish',
    unit: 'MiB',
    load: { beds: 200, probesPerBed: 5, warmUp: 0, timed: 100 * 1001, connections: 10, window: 1000 },
    bare: bareMemory,
    ours: serveMemory,
  },
];
