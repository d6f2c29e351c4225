/**
 * What the first watch remembers of a bed, as it stands in a checkpoint.
 */
import { z } from 'zod';
import { SandlarderError } from '../errors.js';
import { PARAMETERS } from './parameters.js';
import { AT_REST } from './persistence.js';
import { MEMORIES_days, newSlowMeans } from './slow-mean.js';

/** Changes whenever the same readings would give other answers or the state has another shape. */
export const VERSION = 'first-1';

/** What an excess was measured against. */
export const BASES = [
  'shade and neighbours',
  'shade',
  'neighbours',
  'one neighbour and own history',
  'own history',
] as const;
export type Basis = (typeof BASES)[number];

const count = z.number().int().nonnegative();
const hours = z.array(z.number().nullable());
const level = z.object({ middle: z.number(), deviation: z.number().nonnegative() });

const persistence = z.object({
  open: z.boolean(),
  above_h: count,
  dip_h: count,
  below_h: count,
  gap_h: count,
});

/** Days are counted since the epoch (UTC). */
const dayNumber = count;

/** A day of a sound bed: the probe's mean, °C. */
const day = z.tuple([dayNumber, z.number()]);

/** The shade's slow means at the end of a day, °C. */
const shadeDay = z.tuple([dayNumber, z.array(z.number()).length(MEMORIES_days.length)]);

/** How the sand follows the shade: by a memory (its index) and its share; `middle` is the rest, °C. */
const response = level.extend({
  memory: count.max(PARAMETERS.shadeMemories_days.length - 1),
  share: z.number(),
});

const baseline = z.object({
  shade: response.nullable(),
  /** The probe itself, °C. */
  own: level,
  /** Probe above each other probe of the bed, °C. */
  peers: z.array(z.tuple([z.string(), level])),
});

const probe = z.object({
  /** Where it stands and since when, as text: another text is another placement. */
  placement: z.string(),
  /** The last hourly means, °C. */
  hours,
  days: z.array(day),
  baseline: baseline.nullable(),
  /** What the excesses were measured against. */
  basis: z.enum(BASES).nullable(),
  /** Half width of the band of a sound bed in the last hour judged, °C. */
  band_C: z.number().nonnegative(),
  /** The last hourly excesses, °C. */
  excesses: hours,
  heating: z.object({ check: persistence, unpack: persistence, rise: persistence }),
  /** The last humidity, %RH, and what it led to. */
  damp: z.object({ humidity_RH: z.number().nullable(), check: persistence, unpack: persistence }),
});

const raised = z.enum(['check', 'unpack']).nullable();

const state = z.object({
  version: z.literal(VERSION),
  bed: z.string(),
  /** Start of the last hour taken, ms; null before the first. */
  hour: z.number().int().nullable(),
  /** Judgement is held up to this time, ms: the bed was opened. */
  heldTo: z.number().int(),
  /** The bed was packed anew at this time, ms. */
  repackedAt: z.number().int(),
  shade: z.object({
    hours,
    sums: z
      .array(z.object({ sum_C: z.number(), weight: z.number().nonnegative() }))
      .length(MEMORIES_days.length),
    taken_h: count,
    silent_h: count,
  }),
  shadeDays: z.array(shadeDay),
  probes: z.array(z.tuple([z.string(), probe])),
  raised: z.object({ heating: raised, damp: raised }),
  /** Of the last hour in which a probe's warmth was judged. */
  basis: z.enum(BASES).nullable(),
});

type Stored = z.output<typeof state>;

export type Day = z.output<typeof day>;
export type ShadeDay = z.output<typeof shadeDay>;
export type Response = z.output<typeof response>;
export type Baseline = z.output<typeof baseline>;
export type ProbeState = z.output<typeof probe>;
export type Raised = z.output<typeof raised>;
export type WatchState = Omit<Stored, 'probes'> & { probes: Map<string, ProbeState> };

export function newState(bed: string): WatchState {
  return {
    version: VERSION,
    bed,
    hour: null,
    heldTo: 0,
    repackedAt: 0,
    shade: newSlowMeans(),
    shadeDays: [],
    probes: new Map(),
    raised: { heating: null, damp: null },
    basis: null,
  };
}

export function newProbe(placement: string): ProbeState {
  return {
    placement,
    hours: [],
    days: [],
    baseline: null,
    basis: null,
    band_C: 0,
    excesses: [],
    heating: { check: AT_REST, unpack: AT_REST, rise: AT_REST },
    damp: { humidity_RH: null, check: AT_REST, unpack: AT_REST },
  };
}

export function toCheckpoint(kept: WatchState): string {
  return JSON.stringify({ ...kept, probes: [...kept.probes] });
}

function parsedJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (cause) {
    throw new SandlarderError('STORE_UNAVAILABLE', 'checkpoint of the watch: expected JSON', { cause });
  }
}

/**
 * Reads a checkpoint.
 *
 * @throws SandlarderError STORE_UNAVAILABLE where it is damaged, or of another version or bed
 */
export function fromCheckpoint(text: string, bed: string): WatchState {
  const read = state.safeParse(parsedJson(text));
  if (!read.success) {
    const { path, message } = read.error.issues[0] ?? { path: [], message: 'unreadable' };
    throw new SandlarderError('STORE_UNAVAILABLE', `checkpoint of the watch: ${path.join('.')}: ${message}`);
  }
  if (read.data.bed !== bed)
    throw new SandlarderError(
      'STORE_UNAVAILABLE',
      `checkpoint of the watch: expected bed "${bed}", got "${read.data.bed}"`,
    );
  return { ...read.data, probes: new Map(read.data.probes) };
}
