import { z } from 'zod';
import { formatTime } from '../../core/model/time.js';
import { NO_SHARE, SHARE_DEPTH_cm, SHARE_HOURS } from '../../core/watch/dampness/index.js';
import { HTTP_LIMITS } from '../limits.js';
import type { ProbeSwing, SwingView, TimeSpan } from '../ports.js';
import { limitSchema } from './limit.js';
import { timeQuerySchema, timeTextSchema } from './time.js';

export const swingQuerySchema = z.strictObject({
  from: timeQuerySchema.optional().meta({
    description: `Days that end at this time or later; ${HTTP_LIMITS.swingSpan_days} days before "to" where absent`,
  }),
  to: timeQuerySchema.optional().meta({
    description: 'Days that end by this time; the end of the hour of the newest reading where absent',
  }),
});

const letsSchema = z.object({
  dry: z.number(),
  dampFrom: z.number(),
  wetFrom: z.number(),
  factor: z.number().meta({ description: 'Each may be off by this factor either way, k = 2' }),
});

const probeSwingSchema = z
  .object({
    probe: z.string(),
    x: z.number(),
    y: z.number(),
    depth: z.number(),
    cover: z
      .number()
      .meta({ description: 'Sand between the probe and the air that swings with the day, cm' }),
    lets: letsSchema.nullable().meta({
      description:
        'Share that dry sand lets through there, the least that damp, and that wet sand does; null where no sand lies between',
    }),
    time: z.array(timeTextSchema).meta({
      description: `Ends of days in UTC; each share rests on the ${SHARE_HOURS} hours before`,
    }),
    share: z.array(z.number().nullable()).meta({
      description: 'Share of the daily swing outside that arrives; null where that is not known',
    }),
    uncertainty: z.array(z.number().nullable()).meta({
      description: 'Expanded uncertainty of the share, k = 2; null for a bound',
    }),
    atMost: z.array(z.boolean()).meta({ description: 'Whether the share is an upper bound only' }),
    because: z.array(z.enum(NO_SHARE).nullable()).meta({
      description:
        'Why a share is not known. no-shade: too few hours of the shade; little-swing: outside it swings too little to tell; too-few-hours: of the probe, since it was placed or the bed was opened; handled: a jump says that sand or probe were handled',
    }),
  })
  .meta({ id: 'ProbeSwing', description: 'Columns of equal length' });

export const swingSchema = z
  .object({
    bed: z.string(),
    from: timeTextSchema,
    to: timeTextSchema,
    shade: z.array(z.string()).meta({ description: 'Probes that stood in the shade outside' }),
    missing: z.string().nullable().meta({ description: 'Why nothing can be said; null where something can' }),
    threshold: limitSchema.meta({
      description: `A greater share at ${SHARE_DEPTH_cm} cm or deeper says that the sand may be damp`,
    }),
    probes: z.array(probeSwingSchema),
  })
  .meta({ id: 'Swing' });

export type SwingAnswer = z.output<typeof swingSchema>;

export const swingAnswer = (
  bed: string,
  { from, to }: TimeSpan,
  { shade, missing, threshold, probes }: SwingView,
): SwingAnswer => ({
  ...{ bed, from: formatTime(from), to: formatTime(to), shade: [...shade], missing, threshold },
  probes: probes.map(probeAnswer),
});

function probeAnswer(swing: ProbeSwing): SwingAnswer['probes'][number] {
  const { probe, x, y, depth, cover, lets, time, share, uncertainty, atMost, because } = swing;
  return {
    ...{ probe, x, y, depth, cover, lets, time: time.map(formatTime) },
    ...{ share: [...share], uncertainty: [...uncertainty], atMost: [...atMost], because: [...because] },
  };
}
