/** One alarm opened, in an answer. */
import { z } from 'zod';
import { VERDICTS } from '../../core/model/alarm.js';
import { CALIBRATED_QUANTITIES } from '../../core/model/calibration.js';
import { formatTime } from '../../core/model/time.js';
import type { AlarmStory, CalibrationThen, Said, StoryProbe } from '../ports.js';
import { alarmAnswer, alarmSchema } from './alarm.js';
import { timeTextSchema } from './time.js';

const textsSchema = { language: z.string(), draft: z.boolean() } as const;

const whereSchema = z
  .object({ text: z.string(), ...textsSchema })
  .nullable()
  .meta({ description: 'Where to dig, in words; null for an alarm without a place' });

const thresholdSchema = z.object({
  name: z.string(),
  value: z.number().meta({ description: 'In force then: a bed whose thresholds change is judged anew' }),
  unit: z.string(),
  setFor: z.enum(['default', 'site', 'bed']),
  source: z.string().meta({ description: 'Of the default' }),
  meaning: z.string(),
  limit: z.number().optional().meta({
    description: 'What the number had to pass, where the threshold has another unit',
  }),
});

const quantity = z.enum(CALIBRATED_QUANTITIES);

const whySchema = z
  .object({
    name: z.string().meta({ description: 'As in evidence' }),
    label: z.string().meta({ description: 'What it is, in English' }),
    value: z.union([z.number(), z.string()]),
    unit: z.string().nullable().meta({ description: 'time: an event time; 1: a ratio; null: a word' }),
    inWords: z.string().nullable().meta({
      description: 'The value in plain words, where the number or name itself says little; English',
    }),
    text: z.string(),
    probe: z.string().nullable().meta({ description: 'Whose readings it rests on; see probes' }),
    quantity: quantity.nullable(),
    thresholds: z.array(thresholdSchema).meta({ description: 'What it was held against' }),
  })
  .meta({ id: 'Why' });

const calibrationSchema = z
  .object({
    id: z.string(),
    href: z.string(),
    from: timeTextSchema,
    doneAt: timeTextSchema,
    uncertainty: z.number().nullable().meta({
      description: 'Expanded, k = 2, of the corrected reading nearest to the alarm',
    }),
  })
  .nullable()
  .meta({ description: 'In force then; null where there was none: its readings stand as they came' });

const readingSchema = z.object({
  at: timeTextSchema,
  temperature_C: z.number().nullable(),
  expected_C: z.number().nullable(),
  band_C: z.number().nullable(),
  humidity_RH: z.number().nullable(),
});

const storyProbeSchema = z.object({
  probe: z.string(),
  at: z
    .object({ x: z.number(), y: z.number(), depth: z.number() })
    .nullable()
    .meta({ description: 'Where it lay then; null where it did not lie in this bed' }),
  readings: z.array(readingSchema).meta({ description: 'A few, corrected, lows and highs kept' }),
  calibrations: z.object({ temperature: calibrationSchema, humidity: calibrationSchema }),
});

const historySchema = z.object({
  what: z.enum([
    ...(['raised', 'known', 'told', 'moved', 'acknowledged', 'shelved', 'looked', 'cleared'] as const),
    ...(['ended', 'withdrawn'] as const),
  ]),
  at: timeTextSchema,
  clock: z.enum(['event', 'service']).meta({
    description: 'event: by what was measured or seen at the bed; service: when the service knew or did it',
  }),
  by: z.string().optional(),
  note: z.string().optional(),
  told: z
    .object({
      person: z.string(),
      via: z.string(),
      event: z.string(),
      step: z
        .number()
        .int()
        .meta({ description: '0: keeps or follows the bed; then steps of the escalation' }),
      delivered: z.boolean().nullable().meta({ description: 'null while it is on its way' }),
    })
    .optional(),
  until: timeTextSchema.optional(),
  looked: z
    .object({ inspection: z.string(), found: z.array(z.string()), verdict: z.enum(VERDICTS).nullable() })
    .optional(),
});

/** An alarm with why it was raised, what to do, and what became of it. */
export const alarmStorySchema = alarmSchema
  .extend({
    bedName: z.string(),
    siteName: z.string(),
    timezone: z.string(),
    withdrawn: z.boolean().meta({ description: 'By later readings it never was' }),
    successor: z.string().nullable().meta({ description: 'Id of the alarm that people take for it since' }),
    where: whereSchema,
    meaning: z.string().meta({ description: 'English' }),
    why: z.array(whySchema),
    series: z
      .object({ from: timeTextSchema, to: timeTextSchema, href: z.string() })
      .meta({ description: 'The readings of the bed around the alarm' }),
    probes: z.array(storyProbeSchema),
    steps: z
      .object({
        ...textsSchema,
        list: z.array(z.object({ text: z.string(), cautions: z.array(z.string()) })),
      })
      .meta({ description: 'What to do, in order; each with what must be known before it is done' }),
    cautions: z.array(z.string()).meta({ description: 'English' }),
    history: z.array(historySchema).meta({ description: 'In order of time' }),
  })
  .meta({ id: 'AlarmStory' });

export type AlarmStoryAnswer = z.output<typeof alarmStorySchema>;

export interface SaidParts {
  readonly text: Said;
  readonly where: Said | null;
}

export function alarmStoryAnswer(story: AlarmStory, { text, where }: SaidParts): AlarmStoryAnswer {
  const { alarm, bed, siteName, timezone, withdrawn, successor, meaning } = story;
  return {
    ...alarmAnswer(alarm, text),
    ...{ bedName: bed.name, siteName, timezone, withdrawn, successor, where, meaning },
    why: story.why.map(({ thresholds, ...item }) => ({ ...item, thresholds: [...thresholds] })),
    series: seriesAnswer(story),
    probes: story.probes.map(probeAnswer),
    steps: {
      ...{ language: 'en', draft: false },
      list: story.steps.map(({ text: said, cautions }) => ({ text: said, cautions: [...cautions] })),
    },
    cautions: [...story.cautions],
    history: story.history.map(historyAnswer),
  };
}

function seriesAnswer({ bed, span }: AlarmStory): AlarmStoryAnswer['series'] {
  const [from, to] = [formatTime(span.from), formatTime(span.to)];
  return { from, to, href: `/api/beds/${bed.id}/readings?${new URLSearchParams({ from, to })}` };
}

function calibrationAnswer(then: CalibrationThen | null): z.output<typeof calibrationSchema> {
  if (!then) return null;
  const { id, from, doneAt, uncertainty } = then;
  const href = `/api/calibrations/${encodeURIComponent(id)}`;
  return { id, href, from: formatTime(from), doneAt: formatTime(doneAt), uncertainty };
}

function probeAnswer({ probe, at, series, calibrations }: StoryProbe): AlarmStoryAnswer['probes'][number] {
  return {
    ...{ probe, at },
    readings: (series?.time ?? []).map((time, index) => ({
      at: formatTime(time),
      temperature_C: series?.temperature_C[index] ?? null,
      expected_C: series?.expected_C[index] ?? null,
      band_C: series?.band_C[index] ?? null,
      humidity_RH: series?.humidity_RH[index] ?? null,
    })),
    calibrations: {
      temperature: calibrationAnswer(calibrations.temperature),
      humidity: calibrationAnswer(calibrations.humidity),
    },
  };
}

function historyAnswer(event: AlarmStory['history'][number]): AlarmStoryAnswer['history'][number] {
  const { at, until, looked, ...rest } = event;
  return {
    ...rest,
    at: formatTime(at),
    ...(until !== undefined && { until: formatTime(until) }),
    ...(looked && { looked: { ...looked, found: [...looked.found] } }),
  };
}
