import { z } from 'zod';
import { formatTime } from '../../core/model/time.js';
import { FLAG_REASONS, FLAGGED_QUANTITIES } from '../../core/watch/flag.js';
import { HTTP_LIMITS } from '../limits.js';
import {
  DOUBTS,
  type MeasuredSeries,
  type OlderReadings,
  type ProbeSeries,
  READ_FROM,
  type SeriesQuery,
  type ShadeSeries,
} from '../ports.js';
import { countQuerySchema, idsQuerySchema, yesQuerySchema } from './query.js';
import { timeQuerySchema, timeTextSchema } from './time.js';
import { timeTexts } from './time-texts.js';

const { least, most, usual } = HTTP_LIMITS.points;

export const readingsQuerySchema = z.strictObject({
  from: timeQuerySchema.optional().meta({
    description: `Measured at this time or later; ${HTTP_LIMITS.defaultSpan_days} days before "to" where absent`,
  }),
  to: timeQuerySchema.optional().meta({
    description: 'Measured before this time; the end of the hour of the newest reading where absent',
  }),
  points: countQuerySchema(least, most)
    .optional()
    .meta({
      description: `Bound on the length of the series of each probe; ${usual} where absent, fewer for a bed of more than ${Math.floor(HTTP_LIMITS.pointsTogether / usual)} probes`,
    }),
  probes: idsQuerySchema(HTTP_LIMITS.probesNamed).optional().meta({
    description: 'Ids with commas between, of probes of the bed or of its shade; all of the bed where absent',
  }),
  shade: yesQuerySchema.default(false).meta({
    description: 'true gives what was measured in the shade outside beside it',
  }),
});

export type ReadingsQuery = z.output<typeof readingsQuerySchema>;

const column = (description: string) => z.array(z.number().nullable()).meta({ description });

const doubts = z.array(z.enum(DOUBTS).nullable()).meta({
  description:
    'Why the corrected value is to be doubted. outside: beyond what was calibrated; drifted: at its next calibration the probe was found further off than its tolerance',
});

const flagSchema = z.object({
  at: timeTextSchema,
  quantity: z.enum(FLAGGED_QUANTITIES),
  reason: z.enum(FLAG_REASONS),
  value: z.number().meta({ description: 'As the probe sent it, °C or %RH' }),
});

const measuredShape = {
  time: z.array(timeTextSchema).meta({ description: 'Ascending' }),
  temperature_C: column('Corrected, °C'),
  temperatureUncertainty_C: column(
    'Expanded uncertainty of the corrected value, k = 2; null without calibration',
  ),
  temperatureDoubt: doubts,
  humidity_RH: column('Corrected, %RH'),
  humidityUncertainty_RH: column(
    'Expanded uncertainty of the corrected value, k = 2; null without calibration',
  ),
  humidityDoubt: doubts,
};

const afterShape = {
  flagged: z.array(flagSchema).meta({
    description:
      'Values that the watch does not use, and why, in order of time; where there are more than "points", the newest',
  }),
  thinned: z.boolean().meta({
    description:
      'True where more was measured than "points": then the columns hold the least and the greatest temperature and humidity of equal parts of the span, and nothing that the watch does not use',
  }),
  readFrom: z.array(z.enum(READ_FROM)).meta({
    description:
      'Where it was read, from the earliest stretch on. full-rate: kept reading by reading; hours: kept by hours; long-archive: in InfluxDB, reading by reading',
  }),
};

const hoursSchema = z
  .object({
    time: z.array(timeTextSchema).meta({ description: 'Starts of hours, ascending' }),
    expected_C: column('What the probe would show in a sound bed, °C'),
    band_C: column('Half width of the band in which a sound bed stays, °C'),
    excess_C: column('Mean of the hour less what is expected, °C'),
  })
  .meta({
    description:
      'What the watch made of whole hours; where there are more than "points", those of least and greatest excess',
  });

const seriesSchema = z
  .object({
    probe: z.string(),
    x: z.number(),
    y: z.number(),
    depth: z.number(),
    ...measuredShape,
    expected_C: column('What the probe would show in a sound bed, °C'),
    band_C: column('Half width of the band in which a sound bed stays, °C'),
    hours: hoursSchema,
    ...afterShape,
  })
  .meta({ id: 'Series', description: 'Columns of equal length; what was not measured or judged is null' });

const shadeSchema = z
  .object({ probe: z.string(), ...measuredShape, ...afterShape })
  .meta({ id: 'ShadeSeries', description: 'What was measured in the shade outside' });

export const readingsSchema = z
  .object({
    ...{ bed: z.string(), from: timeTextSchema, to: timeTextSchema },
    probes: z.array(seriesSchema),
    shade: z.array(shadeSchema).meta({ description: 'Empty where it was not asked for' }),
    note: z
      .string()
      .nullable()
      .meta({ description: 'Why older readings are given by hours though there is a long archive' }),
  })
  .meta({ id: 'Readings' });

export type ReadingsAnswer = z.output<typeof readingsSchema>;

interface Read extends Pick<OlderReadings, 'note'> {
  readonly probes: readonly ProbeSeries[];
  readonly shade: readonly ShadeSeries[];
}

export function readingsAnswer(
  bed: string,
  { from, to }: SeriesQuery,
  { probes, shade, note }: Read,
): ReadingsAnswer {
  return {
    ...{ bed, from: formatTime(from), to: formatTime(to) },
    probes: probes.map(seriesAnswer),
    shade: shade.map((series) => ({ probe: series.probe, ...measuredAnswer(series) })),
    note,
  };
}

function seriesAnswer(series: ProbeSeries): ReadingsAnswer['probes'][number] {
  const { probe, x, y, depth, hours } = series;
  return {
    ...{ probe, x, y, depth, ...measuredAnswer(series) },
    expected_C: [...series.expected_C],
    band_C: [...series.band_C],
    hours: {
      time: timeTexts(hours.time),
      expected_C: [...hours.expected_C],
      band_C: [...hours.band_C],
      excess_C: [...hours.excess_C],
    },
  };
}

const measuredAnswer = (series: MeasuredSeries): Omit<ReadingsAnswer['shade'][number], 'probe'> => ({
  time: timeTexts(series.time),
  temperature_C: [...series.temperature_C],
  temperatureUncertainty_C: [...series.temperatureUncertainty_C],
  temperatureDoubt: [...series.temperatureDoubt],
  humidity_RH: [...series.humidity_RH],
  humidityUncertainty_RH: [...series.humidityUncertainty_RH],
  humidityDoubt: [...series.humidityDoubt],
  flagged: series.flagged.map(({ at, quantity, reason, value }) => ({
    ...{ at: formatTime(at), quantity, reason, value },
  })),
  thinned: series.thinned,
  readFrom: [...series.readFrom],
});
