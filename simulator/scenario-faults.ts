/** The part of a scenario that describes what goes wrong with probes and with the way of their readings. */
import { z } from 'zod';
import { idSchema } from '../services/core/model/id.js';
import { DAY, numberBetween } from './scenario-numbers.js';

/** When, and which probe; to the end of the season where `days` is absent. */
const SPAN = { probe: idSchema, startDay: DAY, days: numberBetween(0.01, 1000).optional() };

const probeFaultSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('drift'), ...SPAN, C_per_day: numberBetween(-5, 5) }),
  z.strictObject({ kind: z.literal('offset-step'), ...SPAN, C: numberBetween(-50, 50) }),
  /** Tells its last values again and again. */
  z.strictObject({ kind: z.literal('stuck'), ...SPAN }),
  /** Single readings far off, to either side. */
  z.strictObject({
    kind: z.literal('spikes'),
    ...SPAN,
    share: numberBetween(0, 1),
    size_C: numberBetween(0, 100),
  }),
  /** Instead of the temperature, now and then: the power-on value 85, or -127 of a sensor that does not answer. */
  z.strictObject({
    kind: z.literal('sensor-code'),
    ...SPAN,
    code: z.union([z.literal(85), z.literal(-127)]),
    share: numberBetween(0, 1).default(0.2),
  }),
  z.strictObject({ kind: z.literal('noisy'), ...SPAN, sd_C: numberBetween(0, 20) }),
  z.strictObject({ kind: z.literal('silent'), ...SPAN }),
  z.strictObject({ kind: z.literal('humidity-stuck-100'), ...SPAN }),
  z.strictObject({ kind: z.literal('humidity-creep'), ...SPAN, RH_per_day: numberBetween(-10, 10) }),
  /** Its clock goes so much ahead, or behind where negative. */
  z.strictObject({
    kind: z.literal('clock-jump'),
    ...SPAN,
    seconds: numberBetween(-86_400 * 400, 86_400 * 400),
  }),
  /** Lies on the surface instead of in the sand. */
  z.strictObject({ kind: z.literal('pulled'), ...SPAN }),
]);

/** A bed's or the shade's readings are held up so long, and then come together. */
const outageSchema = z.strictObject({
  /** A bed's id, or `shade`. */
  part: idSchema,
  fromDay: DAY,
  /** At most what fits in one message of a probe. */
  days: numberBetween(0.01, 10),
});

const USUAL = { lost: 0.003, outageEvery_days: 40 };

export const faultsSchema = z
  .strictObject({
    /** Share of readings that are never sent. */
    lost: numberBetween(0, 0.5).default(USUAL.lost),
    /** How often a bed's readings are held up, once in so many days on the average; 0 for never. */
    outageEvery_days: numberBetween(0, 1000).default(USUAL.outageEvery_days),
    probes: z.array(probeFaultSchema).max(200).default([]),
    outages: z.array(outageSchema).max(100).default([]),
  })
  .default({ ...USUAL, probes: [], outages: [] });

export type ProbeFault = z.output<typeof probeFaultSchema>;
export type Outage = z.output<typeof outageSchema>;
