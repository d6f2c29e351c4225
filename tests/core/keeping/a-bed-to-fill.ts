/** A stepped pit that is ready in every point, and ways to spoil it. */

import type { ReadinessInputs } from '../../../services/core/keeping/readiness.js';
import type { ProbeHour } from '../../../services/core/keeping/readiness-days.js';
import { readinessLimits } from '../../../services/core/keeping/readiness-limits.js';
import type { ReadinessProbe } from '../../../services/core/keeping/readiness-worst.js';
import type { HandAnswers } from '../../../services/core/model/readiness.js';
import { thresholdsInForce } from '../../../services/core/model/threshold.js';
import { DAY_ms, HOUR_ms } from '../../../services/core/model/time.js';
import { GOOD_SAND } from './some-sand.js';

/** 2026-06-10T06:20:00Z */
export const AT = 1_781_072_400_000 - (1_781_072_400_000 % HOUR_ms) + 20 * 60_000;
export const LIMITS = readinessLimits(thresholdsInForce());

const END = AT - 20 * 60_000;

/** Two days of hours that end at 06:00, by the hours left to the end, 48 to 1. */
export const hoursOf = (of: (left_h: number) => Omit<ProbeHour, 'hour'>): readonly ProbeHour[] =>
  Object.freeze(
    Array.from({ length: 48 }, (_, at) => Object.freeze({ hour: END - (48 - at) * HOUR_ms, ...of(48 - at) })),
  );

const wave = (left_h: number, amplitude: number): number => amplitude * Math.cos((2 * Math.PI * left_h) / 24);

export const SHADE = hoursOf((left_h) => ({ temperature_C: 22 + wave(left_h, 6), humidity_RH: 60 }));

export const inSand = (part: Partial<ReadinessProbe> = {}): ReadinessProbe =>
  Object.freeze({
    id: 's01',
    lies: 'sand',
    depth_cm: 30,
    hours: hoursOf((left_h) => ({ temperature_C: 23 + wave(left_h, 0.3), humidity_RH: 70 })),
    lastHeardAt: AT - 5 * 60_000,
    calibratedAt: Object.freeze({ temperature: AT - 30 * DAY_ms, humidity: AT - 30 * DAY_ms }),
    ...part,
  });

export const inPit = (part: Partial<ReadinessProbe> = {}): ReadinessProbe =>
  inSand({
    id: 'o01',
    lies: 'open pit',
    hours: hoursOf((left_h) => ({ temperature_C: 21 + wave(left_h, 2), humidity_RH: 78 })),
    ...part,
  });

export const ANSWERS: HandAnswers = Object.freeze({
  curing: Object.freeze({ days: 5, temperature_C: 30, humidity_RH: 90 }),
  woundsHealed: true,
  rootsSorted: Object.freeze(['cut', 'rotten', 'weevil-tunnelled', 'frozen'] as const),
  rootsCooled: true,
  roofOver: true,
  ditchDug: true,
  polesFirm: true,
  pitOpen_days: 4,
  sieving: GOOD_SAND,
  weighing: Object.freeze({
    wet_g: 801,
    dry_g: 800,
    driedBefore_g: [800],
    container_g: 300,
    resolution_g: 0.1,
    way: 'pan' as const,
  }),
  rodentsKeptOut: true,
  nextLook: Object.freeze({ by: 'keeper of the pit', at: AT + 10 * DAY_ms }),
});

/** A pit in which one probe lies in the sand of the first course, and one in the air above it. */
export const PIT: ReadinessInputs = Object.freeze({
  at: AT,
  kind: 'stepped-pit',
  answers: ANSWERS,
  probes: Object.freeze([inSand(), inPit()]),
  shade: SHADE,
});

/** The pit with an answer otherwise, or left out. */
export const answering = (
  part: { readonly [Key in keyof HandAnswers]?: HandAnswers[Key] | undefined },
): ReadinessInputs => {
  const answers = Object.fromEntries(
    Object.entries({ ...ANSWERS, ...part }).filter(([, value]) => value !== undefined),
  ) as HandAnswers;
  return { ...PIT, answers };
};
