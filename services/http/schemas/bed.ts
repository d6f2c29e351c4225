import { z } from 'zod';
import type { RotLeft } from '../../core/keeping/index.js';
import type { Alarm } from '../../core/model/alarm.js';
import { blocksOf } from '../../core/model/bed.js';
import { idSchema } from '../../core/model/id.js';
import { LANGUAGE_CODES } from '../../core/model/languages.js';
import type { Bed } from '../../core/model/site.js';
import { formatTime } from '../../core/model/time.js';
import type { BedView, Said } from '../ports.js';
import { alarmAnswer, alarmSchema } from './alarm.js';
import { inspectionAnswer, inspectionSchema } from './inspection.js';
import { probeAnswer, probeSchema } from './probe.js';
import { formatKnownTime, timeTextSchema } from './time.js';

export const bedPathSchema = z.strictObject({ bed: idSchema });

const stepSchema = z
  .object({ length: z.number(), width: z.number(), height: z.number(), x: z.number(), y: z.number() })
  .meta({ description: 'From the top down, in cm; x and y are the corner of the step' });

const rootsSchema = z.object({ count: z.number().int().optional(), mass_kg: z.number().optional() });

const rotLeftSchema = z
  .object({
    since: timeTextSchema,
    at: timeTextSchema.meta({ description: 'Of the last look that found it' }),
    text: z.string(),
    language: z.enum(LANGUAGE_CODES).meta({ description: 'Of the text' }),
    draft: z.boolean().meta({ description: 'No native speaker has read the words' }),
  })
  .meta({ description: 'Rot was found and the bed not repacked; null where none is known to be left' });

const formerProbeSchema = z.object({
  id: z.string(),
  x: z.number(),
  y: z.number(),
  depth: z.number(),
  until: timeTextSchema,
});

/** A bed in an answer: what it is, what its probes say and how it stands. */
export const bedSchema = z
  .object({
    id: z.string(),
    site: z.string(),
    timezone: z.string().meta({ description: 'Of its site, IANA name' }),
    name: z.string(),
    kind: z.enum(['stepped-pit', 'box']),
    steps: z.array(stepSchema),
    filled: timeTextSchema.nullable(),
    roots: rootsSchema.nullable(),
    keeper: z.string().nullable(),
    stands: z.enum(['unfilled', 'learning', 'sound', 'unpack', 'check', 'service']).meta({
      description:
        'What the most urgent open alarm asks for, or rot that was found and left; learning before there is enough to judge by',
    }),
    standsSince: timeTextSchema.nullable().meta({
      description:
        'Since the first alarm that asks for it, the end of the last one, a look, or the filling; never after now',
    }),
    rotLeft: rotLeftSchema.nullable(),
    rootsLeft: z.number().int().nullable().meta({ description: 'Null where its stock is not kept' }),
    basis: z.string().meta({ description: 'What the judgement rests on, in words' }),
    judgedTo: timeTextSchema.nullable().meta({
      description: 'Up to when the watch has judged it; never after now',
    }),
    openAlarms: z.array(alarmSchema),
    latestInspection: inspectionSchema.nullable(),
    probes: z.array(probeSchema).meta({ description: 'That stand in the bed now' }),
    formerProbes: z.array(formerProbeSchema).meta({
      description: 'That have stood in the bed since it was filled and do not now: where they stood last',
    }),
    shade: z
      .array(z.string())
      .meta({ description: 'Ids of probes that stand, or stood, in the shade outside' }),
  })
  .meta({ id: 'Bed' });

export type BedAnswer = z.output<typeof bedSchema>;

/** The texts of an answer in the language that was asked for. */
export interface BedSayings {
  readonly alarm: (alarm: Alarm) => Said;
  readonly rotLeft: (rot: RotLeft, bed: { readonly name: string; readonly timeZone: string }) => Said;
}

export function bedAnswer(view: BedView, said: BedSayings): BedAnswer {
  const { bed, site, stands, basis } = view;
  return {
    id: bed.id,
    site,
    timezone: view.timezone,
    name: bed.name,
    kind: bed.kind,
    steps: stepAnswers(bed),
    filled: formatKnownTime(bed.filled ?? null),
    roots: bed.roots ?? null,
    keeper: bed.keeper ?? null,
    stands,
    standsSince: formatKnownTime(view.standsSince),
    rotLeft:
      view.rotLeft &&
      rotAnswer(view.rotLeft, said.rotLeft(view.rotLeft, { name: bed.name, timeZone: view.timezone })),
    rootsLeft: view.rootsLeft,
    basis,
    judgedTo: formatKnownTime(view.judgedTo),
    openAlarms: view.openAlarms.map((alarm) => alarmAnswer(alarm, said.alarm(alarm))),
    latestInspection: view.latestInspection && inspectionAnswer(view.latestInspection),
    probes: view.probes.map(probeAnswer),
    formerProbes: view.formerProbes.map((probe) => ({ ...probe, until: formatTime(probe.until) })),
    shade: [...view.shade],
  };
}

const rotAnswer = ({ since, at }: RotLeft, said: Said): NonNullable<BedAnswer['rotLeft']> => ({
  ...{ since: formatTime(since), at: formatTime(at), ...said },
});

function stepAnswers({ steps }: Bed): BedAnswer['steps'] {
  return blocksOf(steps).map(({ left, right, near, far, top, bottom }) => ({
    length: right - left,
    width: far - near,
    height: bottom - top,
    x: left,
    y: near,
  }));
}
