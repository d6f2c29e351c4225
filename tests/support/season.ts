/**
 * A short simulated season in messages, as probes publish it: a source of heat beside p01, and later a leak over p03.
 */

import { simulateDays } from '../../simulator/days.js';
import { scenarioSchema } from '../../simulator/scenario.js';

export interface SeasonOptions {
  readonly startAt: number;
  readonly days: number;
  readonly everyMinutes: 10 | 20 | 30 | 60;
  /** Day on which a source of heat begins beside p01. */
  readonly rotFromDay: number;
  /** Day on which water comes in over p03. */
  readonly wetFromDay: number;
}

export interface Message {
  readonly topic: string;
  readonly payload: string;
}

export interface Season {
  readonly site: unknown;
  readonly messages: readonly Message[];
}

export const SHORT_SEASON: SeasonOptions = {
  startAt: Date.UTC(2026, 4, 4, 8),
  days: 36,
  everyMinutes: 60,
  rotFromDay: 14,
  wetFromDay: 26,
};

const STEPS = [
  { length: 150, width: 100, height: 25 },
  { length: 150, width: 60, height: 25 },
];

const BED_PROBES = [
  { id: 'p01', x: 75, y: 40, depth: 30 },
  { id: 'p02', x: 30, y: 50, depth: 30 },
  { id: 'p03', x: 120, y: 50, depth: 35 },
];

const SEED = 4;

export function siteOf({ startAt }: SeasonOptions): unknown {
  const from = new Date(startAt).toISOString();
  return {
    version: 1,
    site: { id: 'test-ridge', name: 'Test ridge', timezone: 'Africa/Lusaka' },
    beds: [
      { id: 'pit-t', name: 'Pit T', kind: 'stepped-pit', steps: STEPS, filled: from, keeper: 'keeper-t' },
    ],
    probes: [
      ...BED_PROBES.map(({ id, x, y, depth }) => ({ id, placements: [{ bed: 'pit-t', x, y, depth, from }] })),
      { id: 'p09', placements: [{ ambient: true, from }] },
    ],
    people: [{ id: 'keeper-t', name: 'Keeper of pit T', language: 'en', reach: [] }],
  };
}

const scenarioOf = ({ days, everyMinutes, rotFromDay, wetFromDay }: SeasonOptions) =>
  scenarioSchema.parse({
    name: 'short season',
    site: { id: 'test-ridge', name: 'Test ridge', timezone: 'Africa/Lusaka' },
    ...{ days, everyMinutes, deepGround_C: 21, shade: ['p09'] },
    weather: { means: [[0, 19]], swing_C: 11, dewPoint_C: 9 },
    beds: [
      {
        ...{ id: 'pit-t', name: 'Pit T', kind: 'stepped-pit', steps: STEPS, probes: BED_PROBES },
        roots: { count: 400, mass_kg: 110 },
        rots: [{ startDay: rotFromDay, x: 83, y: 47, depth: 32, grown_W: 4, growth_days: 3 }],
        leak: { startDay: wetFromDay, x: 118, y: 50, litres_per_day: 5 },
      },
    ],
    faults: { lost: 0, outageEvery_days: 0 },
  });

const made = new Map<string, Season>();

/** In order of event time; one message for each probe and time. */
export function makeSeason(options: SeasonOptions = SHORT_SEASON): Season {
  const key = JSON.stringify(options);
  const season = made.get(key) ?? simulate(options);
  made.set(key, season);
  return season;
}

function simulate(options: SeasonOptions): Season {
  const scenario = scenarioOf(options);
  const readings = ['pit-t', 'shade'].flatMap((part) =>
    [...simulateDays(scenario, part, SEED)]
      .flat()
      .flatMap(({ probe, readings: sent }) => sent.map((reading) => ({ probe, ...reading }))),
  );
  readings.sort((one, other) => one.time_s - other.time_s || (one.probe < other.probe ? -1 : 1));
  return {
    site: siteOf(options),
    messages: readings.map(({ probe, time_s, temperature_C, humidity_RH }) =>
      messageOf(probe, options.startAt + time_s * 1000, temperature_C, humidity_RH),
    ),
  };
}

function messageOf(probe: string, time: number, temperature_C: number, humidity_RH: number): Message {
  const pack = [
    { bn: `urn:dev:ops:${probe}/`, bt: time / 1000, n: 'temperature', u: 'Cel', v: temperature_C },
    { n: 'humidity', u: '%RH', v: humidity_RH },
  ];
  return { topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`, payload: JSON.stringify(pack) };
}

/** A generator of numbers in [0, 1): Mulberry32, public domain. The same seed gives the same order in every run. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Fisher and Yates. */
export function shuffled<Item>(items: readonly Item[], random: () => number): Item[] {
  const order = [...items];
  for (let last = order.length - 1; last > 0; last -= 1) {
    const other = Math.floor(random() * (last + 1));
    const held = order[last] as Item;
    order[last] = order[other] as Item;
    order[other] = held;
  }
  return order;
}
