/** The season of a bed, or of several, in answers. */
import { z } from 'zod';
import { BEDS_MOST, LOSS_CAUSES, type SeasonFigures } from '../../core/keeping/index.js';
import { ALARM_KINDS, VERDICTS } from '../../core/model/alarm.js';
import { idSchema } from '../../core/model/id.js';
import { IN_REASONS, STOCK_OUT_REASONS } from '../../core/model/stock.js';
import { formatTime } from '../../core/model/time.js';
import type { SeasonView } from '../ports.js';
import { formatKnownTime, timeQuerySchema, timeTextSchema } from './time.js';

const to = timeQuerySchema.optional().meta({
  format: 'date-time',
  description: 'End of the report, event time: that of an earlier season gives its report; now where absent',
});

export const seasonQuerySchema = z.strictObject({ to });

export const seasonsQuerySchema = z.strictObject({
  beds: z
    .string()
    .transform((text) => text.split(','))
    .pipe(z.array(idSchema).min(1).max(BEDS_MOST))
    .meta({ description: 'Ids, with commas between them' }),
  to,
});

const moved = <Reason extends string>(reasons: readonly [Reason, ...Reason[]]) =>
  z.array(z.object({ reason: z.enum(reasons), roots: z.int(), mass_kg: z.number().nullable() }));

const share = { share: z.number(), low: z.number(), high: z.number() };

const seasonOfBedSchema = z.object({
  bed: z.string(),
  name: z.string(),
  filledAt: timeTextSchema,
  cultivar: z.string().nullable(),
  field: z.string().nullable(),
  lot: z.string().nullable(),
  filled: z.int().nullable().meta({
    description:
      'Roots that went in: as written down, else as the bed is described; null where neither says it',
  }),
  filledMass_kg: z.number().nullable(),
  filledBy: z
    .enum(['ledger', 'description'])
    .nullable()
    .meta({ description: 'Where `filled` and `filledMass_kg` are from; null where nothing says it' }),
  left: z.int().nullable().meta({ description: 'Null where nobody wrote down what went in' }),
  in: moved(IN_REASONS),
  out: moved(STOCK_OUT_REASONS),
  kept_days: z.number(),
  emptied: z.boolean(),
  notLost: z
    .object({ share: z.number(), low: z.number().nullable(), high: z.number().nullable() })
    .nullable()
    .meta({
      description: 'Share of the roots by the last look, with its 95 % interval; null without counts',
    }),
  losses: z.array(z.object({ cause: z.enum(LOSS_CAUSES), ...share })),
  warmth: z
    .object({
      mean_C: z.number(),
      coldest_C: z.number(),
      warmest_C: z.number(),
      measured: z.int().meta({ description: 'Days with a mean' }),
      quickRot: z.int().meta({ description: 'Of these from 20 to 29 °C' }),
    })
    .nullable(),
  opened: z.int().meta({ description: 'Looks since the filling at which the bed was opened' }),
  sprouts: z.object({ foundAfter: z.number(), notAfter: z.number() }).nullable().meta({
    description: 'Days from the filling; null where none were found, which says nothing where `opened` is 0',
  }),
  alarms: z.array(
    z.object({
      kind: z.enum(ALARM_KINDS),
      raisedAt: timeTextSchema,
      clearedAt: timeTextSchema.nullable(),
      found: z.enum(VERDICTS).nullable().meta({ description: 'Null where it is not known yet' }),
    }),
  ),
});

export const seasonSchema = z
  .object({
    title: z.string(),
    to: timeTextSchema,
    beds: z.array(seasonOfBedSchema),
    notes: z.array(z.string()),
  })
  .meta({ id: 'Season', description: 'From the filling of each bed to the end of the report' });

export type SeasonAnswer = z.output<typeof seasonSchema>;

export const seasonAnswer = ({ document, to: end, beds }: SeasonView): SeasonAnswer => ({
  title: document.title,
  to: formatTime(end),
  beds: beds.map(({ bed, figures }) => ({ bed, ...bedAnswer(figures) })),
  notes: document.sections.flatMap(({ notes }) => notes),
});

function bedAnswer(figures: SeasonFigures): Omit<SeasonAnswer['beds'][number], 'bed'> {
  const { season, totals, kept_days, survival, causes } = figures;
  const { filled, filledMass_kg, filledBy, left, emptied, warmth, opened, sprouts } = figures;
  const { name, filledAt, cultivar, field, lot } = season;
  return {
    ...{ name, filledAt: formatTime(filledAt), cultivar, field, lot },
    ...{ filled, filledMass_kg, filledBy, left },
    ...{ in: [...totals.in], out: [...totals.out], kept_days: Number(kept_days.toFixed(2)), emptied },
    notLost: survival && { share: survival.survival, low: survival.low, high: survival.high },
    losses: causes.map(({ cause, share: of, low, high }) => ({ cause, share: of, low, high })),
    ...{ warmth, opened, sprouts },
    alarms: figures.alarms.map(({ kind, raisedAt, clearedAt, foundOut }) => ({
      ...{ kind, raisedAt: formatTime(raisedAt), clearedAt: formatKnownTime(clearedAt) },
      found: foundOut?.verdict ?? null,
    })),
  };
}
