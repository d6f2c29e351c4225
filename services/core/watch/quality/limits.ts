/**
 * What readings are judged by, each limit with its unit and the source of its value.
 *
 * Sand (computed, conduction): a daily wave of 15 °C at the surface changes sand 5 cm down by at most 0.5 °C in 10
 * minutes where it is moist and by 0.35 °C where it is dry, sand 20 cm down by less than 0.1 °C. What is quicker was
 * not conducted: the bed was opened, water came, or the reading is wrong. A change that spreads by conduction grows
 * with the square root of time, and so does the limit of what is believed at once.
 */
import type { FlaggedQuantity } from '../flag.js';

/** Where a probe stands: in the sand of a bed, or in the shade outside. */
export const QUALITY_PLACES = ['bed', 'shade'] as const;
export type QualityPlace = (typeof QUALITY_PLACES)[number];

/** In the unit of the quantity: °C or %RH. */
export interface QuantityLimits {
  /** Values outside are no measurement of sand or air. */
  readonly least: number;
  readonly most: number;
  /** A departure from the neighbours in time that is never called far, however still it was. */
  readonly floor: number;
  /** By how much the neighbours age, per hour. */
  readonly perHour: number;
  /** Greatest change in 10 minutes; for longer it grows with the square root of time. */
  readonly in10Minutes: number;
  /** Range within which departed values agree with each other. */
  readonly agree: number;
  /** Minutes for which departed values must agree before they are believed. */
  readonly agree_min: number;
  /** Least and greatest scatter (standard deviation) of a sound sensor that is counted on. */
  readonly scatterLeast: number;
  readonly scatterMost: number;
  /** How little the quietest place changes in a day. */
  readonly quietest: number;
}

/**
 * Ranges: tropical sand under a roof, and air. Humidity above 100 is what some sensors tell at saturation.
 * Floors: above the class of cheap probes (±0.5 °C, ±3 %RH: data sheets). Sand: 1.5 °C in 10 minutes is three times
 * the quickest that 5 cm of moist sand conducts; shade: 6 °C in an hour, the double of a clear morning.
 * Quietest: a deep probe follows a season of 7 °C in 150 days (0.05 °C a day), less where it turns; humidity among
 * sound roots hardly changes; shade always has a day. All else: judgement.
 */
export const LIMITS: Readonly<Record<QualityPlace, Readonly<Record<FlaggedQuantity, QuantityLimits>>>> = {
  bed: {
    temperature: {
      least: -10,
      most: 60,
      floor: 0.6,
      perHour: 1,
      in10Minutes: 1.5,
      agree: 1,
      agree_min: 30,
      scatterLeast: 0.02,
      scatterMost: 1,
      quietest: 0.02,
    },
    humidity: {
      least: 1,
      most: 105,
      floor: 6,
      perHour: 6,
      in10Minutes: 15,
      agree: 6,
      agree_min: 20,
      scatterLeast: 0.15,
      scatterMost: 5,
      quietest: 0.05,
    },
  },
  shade: {
    temperature: {
      least: -30,
      most: 60,
      floor: 2,
      perHour: 6,
      in10Minutes: 3,
      agree: 3,
      agree_min: 30,
      scatterLeast: 0.1,
      scatterMost: 2,
      quietest: 1,
    },
    humidity: {
      least: 1,
      most: 105,
      floor: 15,
      perHour: 25,
      in10Minutes: 30,
      agree: 15,
      agree_min: 20,
      scatterLeast: 1,
      scatterMost: 10,
      quietest: 2,
    },
  },
};

/** Judgement where nothing else is said. */
export const QUALITY = {
  /**
   * h after a probe came alive or was placed. Of the difference that a probe of 7 mm radius brings along, 1.7 % is
   * left after an hour in dry sand: r² / (4 a t), a of 0.2e-6 m²/s (computed).
   */
  settling_h: 1,
  /** h without a sample after which a probe is taken to have come alive anew. */
  awayFor_h: 24,
  /** Values that a new one is held against, and how old they may be, h. */
  neighbours: 5,
  neighbours_h: 3,
  /** Departed values that are remembered: they must agree, and become the neighbours once they are believed. */
  departed: 3,
  /** h for which the very last value serves where there is no neighbour. */
  lastServes_h: 12,
  /** Robust standard deviations of the neighbours that a departure may have beside the floor (Hampel's rule: 3). */
  hampel: 4,
  /** Minutes after which departed values are believed though they do not agree: wind and sun on an open bed. */
  believed_min: 90,
  /** h after a step in which limits are wider, and how many times: an open bed goes up and down. */
  restless_h: 6,
  restless: 4,
  /** °C that a value must jump to be taken for a code that is also a temperature, such as 0. */
  codeJump_C: 3,
  /** Signs that make a fault: single codes, spikes, or times out of order prove nothing. Sand has no gusts of its own. */
  signs: 3,
  spikeSigns: { bed: 2, shade: 3 },
  /** h that two signs must lie apart, and h within which they must fall: codes, spikes, times. */
  codesApart_h: 3,
  codesWithin_h: 120,
  spikesApart_h: 6,
  spikesWithin_h: 120,
  clockApart_h: 0,
  clockWithin_h: 24,
  /** h of the same value after which a probe is stuck, whatever its resolution. */
  stuck_h: 36,
  /** Quietest days that a step of the resolution may take, before its lack is a fault. */
  stuckDays: 3,
  /** Samples that this needs at the least. */
  stuckSamples: 6,
  /** h and samples of the same value for a probe whose own scatter is as wide as its steps; twice as many for half of it. */
  livelyStuck_h: 12,
  livelyStuckSamples: 24,
  /** %RH of an hour's mean from which humidity is clipped, so that its scatter says nothing. */
  saturatedFrom_RH: 98,
  /** %RH from which air between wet grains is, and may stay: 98 to 100 (Kelvin relation, computed), less a sensor's error. */
  saturated_RH: 96,
  /** h for which saturation may last: wet sand stays wet, outside air does not stay at the same value. */
  saturated_h: { bed: Number.POSITIVE_INFINITY, shade: 96 },
  /** Steps in which sensors tell their values, °C or %RH, coarsest first; the last is taken for anything finer. */
  steps: [1, 0.5, 0.25, 0.2, 0.125, 0.1, 0.0625],
  finestStep: 0.0625,
  /** h of scatter that are remembered, h of them that a verdict needs, and h that are learned from before it. */
  scatter_h: 18,
  scatterNeeds_h: 13,
  scatterLearns_h: 24,
  /** h of the plain mean with which scatter is learned; afterwards slowly, with a memory in h. */
  scatterPlain_h: 72,
  scatterMemory_h: 720,
  /** Times its own scatter: from here on a probe is noisy. Below the 5 that must be found, above what weather does. */
  noisy: 3.5,
  /** Times its own scatter that is no longer learned from. */
  unlearned: 2.5,
  /** %RH at which a failing humidity sensor and a clipped one stay. Some tell 99.9 for 100 (data sheets). */
  full_RH: 99.9,
  /** %RH of the least jump to it, and of a rise before that shows a front. */
  fullJump_RH: 4,
  fullRise_RH: 2,
  /** Minutes: a wet front brings humidity within an hour or two, not between two samples so close. Half an hour and its jitter. */
  fullQuick_min: 33,
  /** h from the jump in which the temperature would show a front, °C by which, and temperatures that must be looked at. */
  front_h: 1,
  front_C: { bed: 0.5, shade: 1 },
  frontSamples: 2,
  /** h without any scatter after which the sensor is dead; in the shade there are wet nights. */
  dead_h: { bed: 6, shade: 18 },
  deadSamples: 12,
  /** h in a row with no humidity but codes after which the sensor is dead. */
  codesOnly_h: 6,
  /** Accuracy of a cheap sensor, %RH: ±3, and ±4.5 at 100 (SHT30 data sheet, beyond 90). */
  accuracy_RH: 3,
  accuracyFull_RH: 4.5,
  accuracyFrom_RH: 90,
  /** Above 80 %RH a sensor creeps, by about 3 %RH in 60 h, and back (SHT1x and SHT2x data sheets). */
  creepFrom_RH: 80,
  creep_RH: 3,
  creep_h: 60,
  /** Intervals between samples that the cadence is learned from, how many of them must agree, and within which share. */
  cadenceOf: 8,
  cadenceNeeds: 6,
  cadenceSteady: 0.02,
  /** Share of the cadence by which a time may miss its row. */
  cadenceShare: 0.1,
  /** Times that kept to it: counted up to, needed before a time beside it is told, and what a stray one costs. */
  keptMost: 100,
  keptNeeds: 50,
  strayCosts: 10,
  /** Cadences after which a clock's phase is no longer held to. */
  phaseHeld: 10,
  /** h of silence, while others of the bed speak. */
  silent_h: 24,
  /** h with good readings after which a fault is over: the longer, the rarer it shows. */
  release_h: { stuck: 12, 'sensor-code': 48, noisy: 72, 'dead-humidity': 12, clock: 24, silent: 3 },
} as const;
