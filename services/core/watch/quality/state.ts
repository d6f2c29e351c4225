/** What is remembered of one probe to judge its next readings: plain, below 2 KiB as JSON text. */
import { z } from 'zod';
import { FLAGGED_QUANTITIES } from '../flag.js';
import { QUALITY, QUALITY_PLACES, type QualityPlace } from './limits.js';

export const FAULT_KINDS = ['stuck', 'sensor-code', 'noisy', 'dead-humidity', 'clock', 'silent'] as const;
export type FaultKind = (typeof FAULT_KINDS)[number];

const count = z.number().int().nonnegative();
const time = z.number().int();
/** Time and value. */
const point = z.tuple([time, z.number()]);

const signs = z.array(time).max(QUALITY.signs);

const quantity = z.object({
  /** The last values that were believed. */
  recent: z.array(point).max(QUALITY.neighbours),
  /** Values that departed from them and are not yet believed. */
  away: z
    .object({
      since: time,
      count,
      values: z.array(point).max(QUALITY.departed),
    })
    .nullable(),
  /** Limits are wider up to this time. */
  restlessTo: time,
  /** The last two values, believed or not. */
  measured: z.array(point).max(2),
  /** Smallest difference between values that followed each other; null until there was one. */
  resolution: z.number().positive().nullable(),
  /** How long it has been the same value. */
  same: z.object({ value: z.number(), since: time, count }).nullable(),
  /** Standard deviation by the hour, and the probe's own. */
  scatter: z.object({
    hours: z.array(z.number().nonnegative()).max(QUALITY.scatter_h),
    own: z.number().nonnegative(),
    learned_h: count,
  }),
  /** Times of the last codes and of the last single spikes: see signs.ts. */
  codes: signs,
  spikes: signs,
});

const state = z.object({
  place: z.enum(QUALITY_PLACES),
  /** Start of the last hour taken; null before the first. */
  hour: time.nullable(),
  /** Time of the last sample, or of the placing before there was any. */
  lastAt: time,
  /** Up to this time the probe is not settled; null until it has come alive. */
  settledAt: time.nullable(),
  silent_h: count,
  temperature: quantity,
  humidity: quantity,
  /** A humidity that jumped to the end of its range. */
  full: z
    .object({
      at: time,
      value: z.number(),
      count,
      /** Whether the jump was too quick for a wet front. */
      quick: z.boolean(),
      /** °C before it. */
      temperature: z.number().nullable(),
      temperaturesSeen: count,
      dead: z.boolean(),
    })
    .nullable(),
  /** h in a row in which humidity was nothing but codes. */
  humidityCodes_h: count,
  /** h of creep that humidity has gathered. */
  creep_h: count,
  clock: z.object({
    /** ms; the last ones, and what was learned from them. */
    intervals: z.array(count).max(QUALITY.cadenceOf),
    cadence: count.nullable(),
    /** Last time that kept to the cadence, and how well times do. */
    keptAt: time.nullable(),
    kept: count,
    /** Times that keep to the cadence, but beside it. */
    beside: z.object({ at: time, alone: count }).nullable(),
    /** Times of the last signs of a broken clock. */
    signs,
  }),
  /** Faults that stand: kind, sensor, since when, and good hours since it showed last. */
  faults: z.array(z.tuple([z.enum(FAULT_KINDS), z.enum(FLAGGED_QUANTITIES).nullable(), time, count])),
});

/** The shape of the state, to read it back from a checkpoint. */
export const qualityStateSchema = state;

export type QualityState = z.output<typeof state>;
export type QuantityState = z.output<typeof quantity>;
export type Point = z.output<typeof point>;

const newQuantity = (): QuantityState => ({
  recent: [],
  away: null,
  restlessTo: 0,
  measured: [],
  resolution: null,
  same: null,
  scatter: { hours: [], own: 0, learned_h: 0 },
  codes: [],
  spikes: [],
});

/**
 * A probe of which nothing is known.
 *
 * @param placedAt when it was placed, ms
 */
export function newQuality(place: QualityPlace, placedAt: number): QualityState {
  return {
    place,
    hour: null,
    lastAt: placedAt,
    settledAt: null,
    silent_h: 0,
    temperature: newQuantity(),
    humidity: newQuantity(),
    full: null,
    humidityCodes_h: 0,
    creep_h: 0,
    clock: { intervals: [], cadence: null, keptAt: null, kept: 0, beside: null, signs: [] },
    faults: [],
  };
}

/**
 * A probe that was put elsewhere: what it is stays known (resolution, scatter, clock, faults), where it was is
 * forgotten.
 *
 * @param placedAt ms
 */
export function placeAnew(before: QualityState, place: QualityPlace, placedAt: number): QualityState {
  const elsewhere = (quantity: QuantityState): QuantityState => ({
    ...quantity,
    recent: [],
    away: null,
    measured: [],
    same: null,
  });
  return {
    ...before,
    place,
    lastAt: Math.max(before.lastAt, placedAt),
    settledAt: null,
    temperature: elsewhere(before.temperature),
    humidity: elsewhere(before.humidity),
    full: null,
  };
}
