/** Tells whoever watches the console: one plain line for each event of an alarm. */
import { z } from 'zod';
import { ALARM_EVENTS } from '../core/alarms/text.js';
import { timeInWords } from '../core/calibration/certificate-words.js';
import { timeSchema } from '../core/model/time.js';
import { DeliveryError } from './delivery-error.js';
import { oneLine } from './one-line.js';
import type { OutboxMessage, Way } from './ports.js';

/** Characters of a line at the most: a bed's name has up to 200. */
const LINE_LENGTH = 500;

/** What the line needs of a message's body. */
const bodySchema = z.object({
  event: z.enum([...ALARM_EVENTS, 'drill']),
  /** Absent in what an earlier version left to be sent. */
  at: timeSchema.optional(),
  line: z.string().min(1),
  /** Absent where it is about no alarm: then the site stands beside it. */
  alarm: z.object({ site: z.string(), raisedAt: timeSchema, clearedAt: timeSchema.nullable() }).optional(),
  site: z.string().optional(),
});
type Body = z.output<typeof bodySchema>;

function bodyOf(message: OutboxMessage): Body {
  try {
    return bodySchema.parse(JSON.parse(message.body));
  } catch (error) {
    throw new DeliveryError('BAD_REQUEST', `console: expected the body of an alarm message, got another`, {
      permanent: true,
      cause: error,
    });
  }
}

/** When it happened: an alarm that was withdrawn is known by the time at which it had been raised. */
function eventTime({ event, at, alarm }: Body): number {
  if (at !== undefined) return at;
  if (!alarm) return 0;
  return event === 'cleared' ? (alarm.clearedAt ?? alarm.raisedAt) : alarm.raisedAt;
}

export interface ConsoleOptions {
  /** Writes one line; it comes without a line end. */
  readonly write: (line: string) => void;
  /** IANA time zone of a site; UTC where this is not given or does not know the site. */
  readonly timeZoneOf?: (site: string) => string | undefined;
}

/** The way `console`: event time in the site's zone, then the line: bed, what is wrong, what to do. */
export function createConsole({ write, timeZoneOf }: ConsoleOptions): Way {
  return {
    name: 'console',
    async send(message) {
      const body = bodyOf(message);
      const time = timeInWords(eventTime(body), timeZoneOf?.(body.alarm?.site ?? body.site ?? '') ?? null);
      write(oneLine(`${time}  ${body.line}`, LINE_LENGTH));
    },
  };
}
