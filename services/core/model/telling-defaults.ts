/**
 * How a site's people are told: each setting with its default and the honest source of it, as thresholds have.
 */
import { z } from 'zod';
import { clockTimeSchema } from './clock-time.js';
import type { Threshold } from './threshold.js';

/** When what can wait is told, by the site's clock. */
export const MORNING = {
  default: '06:30',
  source: 'judgement: before the day in the field begins',
  meaning: 'when what can wait is told in one message; to whoever has quiet hours then, at their end',
} as const;

export const TELLING = {
  most_per_bed_a_day: {
    ...{ unit: 'messages/day', default: 6, low: 2, high: 100 },
    source: 'judgement: more are no longer read',
    meaning:
      'messages about one bed to one person on a day of the site; the last of them is a summary, and after it only a new unpack is told',
  },
  storm_alarms: {
    ...{ unit: 'alarms', default: 5, low: 2, high: 1000 },
    source:
      'judgement: by half of the ten in ten minutes that EEMUA 191 calls a flood, for one person on foot',
    meaning: 'so many alarms for one person within storm_within_min are told in one summary',
  },
  storm_within_min: {
    ...{ unit: 'min', default: 60, low: 1, high: 1440 },
    source: 'judgement',
    meaning: 'see storm_alarms; also how long after a summary the next waits',
  },
  repeat_after_h: {
    ...{ unit: 'h', default: 24, low: 1, high: 168 },
    source: 'judgement: unpack means today',
    meaning:
      'an unpack that nobody has acknowledged is told again to the same people; a way that failed is tried again',
  },
  give_up_after_h: {
    ...{ unit: 'h', default: 168, low: 1, high: 2160 },
    source: 'judgement: a week of daily repeats',
    meaning: 'so long after it was first told an alarm is neither repeated nor passed on any more',
  },
} as const satisfies Record<string, Threshold>;

const within = ({ low, high }: Threshold) => z.number().min(low).max(high);
const whole = ({ low, high }: Threshold) => z.number().int().min(low).max(high);

/** Keys of `telling` of a site. */
export const tellingShape = {
  morning: clockTimeSchema.optional(),
  most_per_bed_a_day: whole(TELLING.most_per_bed_a_day).optional(),
  storm: z
    .strictObject({
      alarms: whole(TELLING.storm_alarms).optional(),
      within_min: within(TELLING.storm_within_min).optional(),
    })
    .optional(),
  repeat_after_h: within(TELLING.repeat_after_h).optional(),
  give_up_after_h: within(TELLING.give_up_after_h).optional(),
  /** Tries every month, at nine in the morning, whether messages arrive. */
  drill: z.enum(['monthly']).optional(),
} as const;

export const tellingSchema = z.strictObject(tellingShape);
export type TellingSettings = z.output<typeof tellingSchema>;

/** The settings of a site with the defaults in the place of what it leaves out. */
export interface TellingInForce {
  /** `HH:MM` */
  readonly morning: string;
  readonly most_per_bed_a_day: number;
  readonly storm: { readonly alarms: number; readonly within_min: number };
  readonly repeat_after_h: number;
  readonly give_up_after_h: number;
}

export function tellingInForce(settings: TellingSettings | undefined): TellingInForce {
  return Object.freeze({
    morning: settings?.morning ?? MORNING.default,
    most_per_bed_a_day: settings?.most_per_bed_a_day ?? TELLING.most_per_bed_a_day.default,
    storm: {
      alarms: settings?.storm?.alarms ?? TELLING.storm_alarms.default,
      within_min: settings?.storm?.within_min ?? TELLING.storm_within_min.default,
    },
    repeat_after_h: settings?.repeat_after_h ?? TELLING.repeat_after_h.default,
    give_up_after_h: settings?.give_up_after_h ?? TELLING.give_up_after_h.default,
  });
}
