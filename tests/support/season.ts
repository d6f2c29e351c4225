/**
 * A short season in messages, as probes would publish it: a sinusoidal shade, a damped bed, warmth growing at one
 * probe from a day on, and another probe's sand becoming wet. Made for tests of what carries the messages; the
 * simulator makes better sand.
 */

const DAY_ms = 86_400_000;
const MINUTE_ms = 60_000;

export interface SeasonOptions {
  readonly startAt: number;
  readonly days: number;
  readonly everyMinutes: number;
  /** Day on which a source of heat begins beside p01. */
  readonly rotFromDay: number;
  /** Day on which the sand at p03 becomes wet. */
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
  days: 40,
  everyMinutes: 60,
  rotFromDay: 20,
  wetFromDay: 28,
};

const BED_PROBES = [
  { id: 'p01', x: 75, y: 40, depth: 30, base_C: 21 },
  { id: 'p02', x: 30, y: 50, depth: 30, base_C: 20.6 },
  { id: 'p03', x: 120, y: 50, depth: 35, base_C: 20.8 },
];

/** A small wobble that is the same in every run and repeats in none: hundredths of a degree. */
const wobble = (seed: number, step: number): number => Math.sin(seed * 12.9 + step * 78.233) * 0.03;

export function siteOf({ startAt }: SeasonOptions): unknown {
  const from = new Date(startAt).toISOString();
  return {
    version: 1,
    site: { id: 'test-ridge', name: 'Test ridge', timezone: 'Africa/Lusaka' },
    beds: [
      {
        id: 'pit-t',
        name: 'Pit T',
        kind: 'stepped-pit',
        steps: [
          { length: 150, width: 100, height: 25 },
          { length: 150, width: 60, height: 25 },
        ],
        filled: from,
        keeper: 'keeper-t',
      },
    ],
    probes: [
      ...BED_PROBES.map(({ id, x, y, depth }) => ({ id, placements: [{ bed: 'pit-t', x, y, depth, from }] })),
      { id: 'p09', placements: [{ ambient: true, from }] },
    ],
    people: [{ id: 'keeper-t', name: 'Keeper of pit T', language: 'en', reach: [] }],
  };
}

function temperaturesAt(day: number, options: SeasonOptions, step: number): Record<string, number> {
  const season = 2 * Math.sin(day / 30);
  const sourceDays = Math.max(0, day - options.rotFromDay);
  const source_C = Math.min(5, sourceDays * 0.45);
  const values: Record<string, number> = { p09: 20 + season + 6 * Math.sin(2 * Math.PI * (day - 0.4)) };
  BED_PROBES.forEach(({ id, base_C }, index) => {
    const share = id === 'p01' ? 1 : 0.12;
    const swing = 0.1 * Math.sin(2 * Math.PI * (day - 0.9));
    values[id] = base_C + 0.8 * season + swing + share * source_C + wobble(index + 1, step);
  });
  return values;
}

/** In order of event time; one message for each probe and time. */
export function makeSeason(options: SeasonOptions = SHORT_SEASON): Season {
  const messages: Message[] = [];
  const steps = (options.days * 24 * 60) / options.everyMinutes;
  for (let step = 0; step < steps; step += 1) {
    const time = options.startAt + step * options.everyMinutes * MINUTE_ms;
    const day = (time - options.startAt) / DAY_ms;
    for (const [probe, temperature_C] of Object.entries(temperaturesAt(day, options, step))) {
      const wet = probe === 'p03' && day >= options.wetFromDay;
      const humidity_RH = probe === 'p09' ? 55 : wet ? 99.5 : 86 + wobble(3, step) * 10;
      messages.push(messageOf(probe, time, temperature_C, humidity_RH));
    }
  }
  return { site: siteOf(options), messages };
}

function messageOf(probe: string, time: number, temperature_C: number, humidity_RH: number): Message {
  const pack = [
    {
      bn: `urn:dev:ops:${probe}/`,
      bt: time / 1000,
      n: 'temperature',
      u: 'Cel',
      v: Number(temperature_C.toFixed(2)),
    },
    { n: 'humidity', u: '%RH', v: Number(humidity_RH.toFixed(1)) },
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
