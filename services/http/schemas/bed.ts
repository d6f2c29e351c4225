import { z } from 'zod';
import type { Alarm } from '../../core/model/alarm.js';
import { blocksOf } from '../../core/model/bed.js';
import { idSchema } from '../../core/model/id.js';
import type { Bed } from '../../core/model/site.js';
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
      description: 'What the most urgent open alarm asks for; learning before there is enough to judge by',
    }),
    standsSince: timeTextSchema.nullable().meta({
      description: 'Since the first alarm that asks for it, the end of the last one, or the filling',
    }),
    rootsLeft: z.number().int().nullable().meta({ description: 'Null where its stock is not kept' }),
    basis: z.string().meta({ description: 'What the judgement rests on, in words' }),
    judgedTo: timeTextSchema.nullable(),
    openAlarms: z.array(alarmSchema),
    latestInspection: inspectionSchema.nullable(),
    probes: z.array(probeSchema),
    shade: z
      .array(z.string())
      .meta({ description: 'Ids of probes that stand, or stood, in the shade outside' }),
  })
  .meta({ id: 'Bed' });

export type BedAnswer = z.output<typeof bedSchema>;

/** @param said the text of an alarm in the language that was asked for */
export function bedAnswer(view: BedView, said?: (alarm: Alarm) => Said): BedAnswer {
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
    rootsLeft: view.rootsLeft,
    basis,
    judgedTo: formatKnownTime(view.judgedTo),
    openAlarms: view.openAlarms.map((alarm) => alarmAnswer(alarm, said?.(alarm))),
    latestInspection: view.latestInspection && inspectionAnswer(view.latestInspection),
    probes: view.probes.map(probeAnswer),
    shade: [...view.shade],
  };
}

function stepAnswers({ steps }: Bed): BedAnswer['steps'] {
  return blocksOf(steps).map(({ left, right, near, far, top, bottom }) => ({
    length: right - left,
    width: far - near,
    height: bottom - top,
    x: left,
    y: near,
  }));
}
