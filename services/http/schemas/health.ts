import { z } from 'zod';
import { formatTime } from '../../core/model/time.js';
import {
  ACCESS_STANDINGS,
  type AccessStanding,
  type Health,
  type LongArchiveHealth,
  type OlderHealth,
} from '../ports.js';
import { formatKnownTime, timeTextSchema } from './time.js';

export const healthSchema = z
  .object({
    status: z.enum(['ok', 'degraded']),
    problems: z.array(z.string()).meta({ description: 'In words, one for each thing that is wrong' }),
    access: z.enum(ACCESS_STANDINGS).meta({
      description: '`open`: whoever works at this machine may do all; else they sign in',
    }),
    accepting: z.boolean().meta({ description: 'Readings are being accepted' }),
    version: z.string(),
    startedAt: z.string().meta({ format: 'date-time', description: 'By the wall clock' }),
    broker: z.object({
      kind: z.enum(['built-in', 'external']),
      connected: z.boolean(),
      refused: z.object({ connect: z.int(), publish: z.int(), subscribe: z.int() }).nullable().meta({
        description:
          'How often somebody was refused to connect, to publish and to subscribe, since the start; null with an external broker, which decides that',
      }),
    }),
    newestReadingAt: timeTextSchema.nullable(),
    watchLag: z
      .object({
        beds: z.number().int(),
        hours: z.number(),
        byBed: z
          .array(z.object({ bed: z.string(), hours: z.number() }))
          .meta({ description: 'Hours of each bed that are still to judge' }),
      })
      .meta({ description: 'Beds with hours still to judge, and how many hours that is at the most' }),
    outboxWaiting: z.number().int().meta({ description: 'Messages that are not delivered yet' }),
    longArchive: z
      .object({
        address: z.string(),
        waiting: z.number().int().meta({ description: 'Readings that are not forwarded yet' }),
        oldestAt: z.string().nullable().meta({
          format: 'date-time',
          description: 'When the oldest of them was taken in, by the wall clock',
        }),
        refused: z
          .number()
          .int()
          .meta({ description: 'Readings that the server would not take, since the start: see quarantine' }),
        lastError: z.object({ at: z.string().meta({ format: 'date-time' }), reason: z.string() }).nullable(),
      })
      .nullable()
      .meta({ description: 'How forwarding to InfluxDB goes; null where there is none' }),
    olderReadings: z
      .object({
        keep_days: z.number().meta({ description: 'For so long readings are kept one by one' }),
        byHoursTo: timeTextSchema.nullable().meta({
          description: 'Before this time those of every probe of which any are by hours are so',
        }),
        waiting: z
          .object({ probes: z.int(), days: z.number() })
          .meta({ description: 'Probes whose readings may go into hours, and days of the furthest behind' }),
        lastAt: z.string().nullable().meta({
          format: 'date-time',
          description: 'When any went last, by the wall clock; null where none did since the start',
        }),
        heldBy: z.array(z.object({ bed: z.string(), alarm: z.string() })).meta({
          description:
            'Open alarms for which older readings are kept one by one, until somebody answers them or the bed is filled anew',
        }),
      })
      .nullable()
      .meta({ description: 'How putting older readings into their hours goes' }),
  })
  .meta({ id: 'Health' });

/** @param access who is asked who they are */
export function healthAnswer(health: Health, access: AccessStanding): z.output<typeof healthSchema> {
  const { status, problems, accepting, version, broker, watchLag, outboxWaiting, longArchive } = health;
  const { olderReadings } = health;
  return {
    status,
    access,
    problems: [...problems],
    accepting,
    version,
    startedAt: formatTime(health.startedAt),
    broker,
    newestReadingAt: formatKnownTime(health.newestReadingAt),
    watchLag: { ...watchLag, byBed: [...watchLag.byBed] },
    outboxWaiting,
    longArchive: longArchive && longArchiveAnswer(longArchive),
    olderReadings: olderReadings && olderAnswer(olderReadings),
  };
}

const olderAnswer = ({ byHoursTo, lastAt, heldBy, ...rest }: OlderHealth) => ({
  ...{ ...rest, byHoursTo: formatKnownTime(byHoursTo), lastAt: formatKnownTime(lastAt) },
  heldBy: [...heldBy],
});

function longArchiveAnswer({ oldestAt, lastError, ...rest }: LongArchiveHealth) {
  return {
    ...rest,
    oldestAt: oldestAt === null ? null : formatTime(oldestAt),
    lastError: lastError && { at: formatTime(lastError.at), reason: lastError.reason },
  };
}

/** For whoever did not show who they are: whether it works, and nothing of whom it is for. */
export function healthForStrangers(health: Health): Health {
  const { problems, watchLag } = health;
  return {
    ...health,
    problems: problems.length === 0 ? [] : ['something is wrong: whoever signs in sees what'],
    watchLag: { ...watchLag, byBed: [] },
    longArchive: null,
  };
}
