/** What the watch for damp remembers of a bed: plain JSON, under 4 KiB a probe. */
import { z } from 'zod';
import { AT_REST, holdSchema } from './hold.js';
import { DAMPNESS } from './parameters.js';

const hours = (most: number) => z.array(z.number().nullable()).max(most);

const trendSchema = z.object({
  slope_RH_per_day: z.number(),
  /** Lower bound of the slope. */
  least_RH_per_day: z.number(),
});

/** What a probe's own sound weeks say. */
const referenceSchema = z.object({
  level_RH: z.number(),
  /** Standard deviation of its daily levels, %RH, never under the least. */
  spread_RH: z.number().positive(),
  /** Uncertainty that quality stated in those weeks, %RH; null where it stated none. */
  uncertainty_RH: z.number().nullable(),
});

const humiditySchema = z.object({
  /** Hourly means, %RH. */
  hours: hours(DAMPNESS.trend_h),
  /** Daily levels of a sound bed, %RH, with the uncertainty that quality stated, or null. */
  days: z.array(z.tuple([z.number(), z.number().nullable()])).max(DAMPNESS.learned_days),
  /** Median of the last day, %RH; null where too little was measured. */
  level_RH: z.number().nullable(),
  reference: referenceSchema.nullable(),
  trend: trendSchema.nullable(),
  check: holdSchema,
  early: holdSchema,
  unpack: holdSchema,
  together: holdSchema,
});

const learnedSchema = z.object({
  /** `shade`, or the id of the shallower probe. */
  via: z.string(),
  fits: z.number().int().nonnegative(),
  /** Sums over the fits: the way in damping depths, and the share of the swing. */
  way: z.number(),
  share: z.number(),
});

const readingSchema = z.object({
  swingShare: z.number(),
  via: z.string(),
  diffusivity_m2_s: z.number(),
  uncertaintyFactor: z.number(),
  atMost: z.boolean(),
  class: z.enum(['dry', 'damp', 'wet', 'unknown']),
  probability: z.number(),
  dampProbability: z.number(),
});

const swingSchema = z.object({
  /** Hourly means, °C. */
  hours: hours(DAMPNESS.wave_h),
  learned: z.array(learnedSchema).max(2),
  /** What the last fit says of the sand; null where it says nothing. */
  reading: readingSchema.nullable(),
  /** Whether that asks for a look, and the last reading that did. */
  asks: z.boolean(),
  /** What the reference that asked says now, as probability of damp sand; null where it does not swing enough. */
  again: z.number().nullable(),
  asked: readingSchema.nullable(),
  damp: holdSchema,
});

const frontSchema = z.object({
  sign: z.enum(['front', 'front-or-broken', 'temperature-step']),
  since: z.number(),
  before_RH: z.number().nullable(),
  reached_RH: z.number().nullable(),
  change_C: z.number().nullable(),
  /** Hours in a row of ordinary values, of scatter at saturation, and without humidity. */
  gone_h: z.number().int().nonnegative(),
  alive_h: z.number().int().nonnegative(),
  silent_h: z.number().int().nonnegative(),
});

const probeSchema = z.object({
  /** Where it stands, as text: another text is another place. */
  place: z.string(),
  /** Event time since when it stands there, ms. */
  since: z.number(),
  humidity: humiditySchema,
  swing: swingSchema,
  /** The last samples: time ms, °C, %RH. */
  tail: z.array(z.tuple([z.number(), z.number().nullable(), z.number().nullable()])).max(DAMPNESS.tail),
  front: frontSchema.nullable(),
});

const dewSchema = z.object({
  hold: holdSchema,
  /** Of the last hour that counted: the coldest probe, its sand, the dew point, and where that was measured. */
  coldest: z.string().nullable(),
  sand_C: z.number(),
  dewPoint_C: z.number(),
  source: z.string(),
});

export const dampnessStateSchema = z.object({
  /** Start of the last hour, ms; null before the first. */
  hour: z.number().nullable(),
  /** Event times of the last filling or repacking and of the last opening, ms. */
  packedAt: z.number(),
  openedAt: z.number().nullable(),
  shade: hours(DAMPNESS.wave_h),
  /** In order of id. */
  probes: z.record(z.string(), probeSchema),
  outsideAir: dewSchema,
  insideAir: dewSchema,
});

export type DampnessState = z.output<typeof dampnessStateSchema>;
export type DampProbeState = z.output<typeof probeSchema>;
export type HumidityReference = z.output<typeof referenceSchema>;
export type HumidityState = z.output<typeof humiditySchema>;
export type SwingState = z.output<typeof swingSchema>;
export type FrontState = z.output<typeof frontSchema>;
export type DewState = z.output<typeof dewSchema>;

export const newDew = (): DewState => ({
  hold: AT_REST,
  coldest: null,
  sand_C: 0,
  dewPoint_C: 0,
  source: '',
});

/**
 * The memory of a bed before its first hour.
 *
 * @param packedAt event time at which the bed was filled or last packed anew, ms
 */
export function newDampness(packedAt: number): DampnessState {
  return {
    hour: null,
    packedAt,
    openedAt: null,
    shade: [],
    probes: {},
    outsideAir: newDew(),
    insideAir: newDew(),
  };
}

/** A probe that begins without a past. */
export function newProbe(place: string, since: number): DampProbeState {
  return {
    place,
    since,
    humidity: {
      hours: [],
      days: [],
      level_RH: null,
      reference: null,
      trend: null,
      check: AT_REST,
      early: AT_REST,
      unpack: AT_REST,
      together: AT_REST,
    },
    swing: { hours: [], learned: [], reading: null, asks: false, again: null, asked: null, damp: AT_REST },
    tail: [],
    front: null,
  };
}
