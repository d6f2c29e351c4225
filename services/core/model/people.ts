/**
 * Who is told of alarms and when: the people's, groups', beds' and site's parts of a site description. All of it is
 * optional, so that a file without any of it stays valid.
 */
import { z } from 'zod';
import { ALARM_KINDS } from './alarm.js';
import { clockTimeSchema, minutesOfClock } from './clock-time.js';
import { idSchema } from './id.js';
import { tellingShape } from './telling-defaults.js';

/** Bounds of one description: they keep a mistyped file from telling half a district. */
export const PEOPLE_LIMITS = { reach: 16, beds: 1000, groups: 200, members: 200, escalation: 8 } as const;

/** The ways by which somebody can be told. */
export const VIAS = ['sms', 'email', 'webhook', 'console'] as const;
export type Via = (typeof VIAS)[number];

/** What a webhook is sent: JSON where nothing is said, or OASIS CAP 1.2, one message an alarm. */
export const WEBHOOK_BODIES = ['json', 'cap'] as const;
export type WebhookBody = (typeof WEBHOOK_BODIES)[number];

/** "+" and 7 to 15 digits [ITU-T E.164]; no country's code begins with 0. The lower bound is judgement. */
const TELEPHONE = /^\+[1-9]\d{6,14}$/;

/** Plausible only: a local part, one "@", a domain with a dot. What is taken is known when a message arrives. */
const E_MAIL = /^[^\s@<>(),;:"[\]\\]{1,64}@(?:[a-z0-9](?:[a-z0-9-]{0,61}[a-z0-9])?\.)+[a-z0-9-]{2,63}$/i;

/** Of an address with its path [RFC 5321 4.5.3.1.3, less the brackets]. */
const LONGEST_E_MAIL = 254;

/** What is wrong with where to reach somebody, in a sentence; undefined where nothing is. A URL is judged where it is used. */
export function addressProblem(via: Via, to: string): string | undefined {
  if (via === 'sms' && !TELEPHONE.test(to))
    return `expected a telephone number as "+", country code and number, 7 to 15 digits without blanks, got ${JSON.stringify(to)}`;
  if (via === 'email' && !(to.length <= LONGEST_E_MAIL && E_MAIL.test(to) && !/^\.|\.\.|\.@/.test(to)))
    return `expected an e-mail address such as keeper@example.org, got ${JSON.stringify(to)}`;
  return undefined;
}

/** One way of reaching somebody. The list of them is in order of preference: where one is dead, the next is used. */
export const reachSchema = z
  .strictObject({
    via: z.enum(VIAS),
    to: z.string().min(1).max(500),
    body: z.enum(WEBHOOK_BODIES).optional(),
  })
  .superRefine(({ via, to, body }, context) => {
    const message = addressProblem(via, to);
    if (message !== undefined) context.addIssue({ code: 'custom', path: ['to'], message, input: to });
    if (body === undefined || via === 'webhook') return;
    const noBody = `expected a "body" only where "via" is "webhook", got it with ${JSON.stringify(via)}`;
    context.addIssue({ code: 'custom', path: ['body'], message: noBody, input: body });
  });

const DAY_min = 24 * 60;

/** What quiet hours must leave of a day. Judgement: in less than that no message of the morning is read. */
const LEAST_OPEN_min = 60;

/** From one time of the clock to another, on the next day where that is earlier. */
export const quietSchema = z
  .strictObject({ from: clockTimeSchema, to: clockTimeSchema })
  .refine((quiet) => openMinutes(quiet) >= LEAST_OPEN_min, {
    error: ({ input }) => {
      const { from, to } = input as { from: string; to: string };
      return `expected quiet hours that leave an hour or more of the day, got from ${from} to ${to}`;
    },
  });
export type Quiet = z.output<typeof quietSchema>;

/** From the end to the next beginning, minutes; 0 where the two are one. */
function openMinutes({ from, to }: { readonly from: string; readonly to: string }): number {
  return (minutesOfClock(from) - minutesOfClock(to) + DAY_min) % DAY_min;
}

/** Keys of a person beside `id`, `name` and `language`. */
export const personTellingShape = {
  reach: z.array(reachSchema).max(PEOPLE_LIMITS.reach).default([]),
  /** When nothing but `unpack` is told. */
  quiet: quietSchema.optional(),
  /** Told of these beds beside those that they keep. */
  beds: z.array(idSchema).max(PEOPLE_LIMITS.beds).optional(),
  /** Told of these kinds alone. */
  kinds: z.array(z.enum(ALARM_KINDS)).min(1).optional(),
  /** Leads the site: told of the `unpack` of every bed. */
  lead: z.boolean().optional(),
} as const;

/** People who keep beds together: all are told of `unpack`, the lead alone of the rest. */
export const groupSchema = z.strictObject({
  id: idSchema,
  name: z.string().trim().min(1).max(200),
  lead: idSchema,
  members: z.array(idSchema).max(PEOPLE_LIMITS.members),
});
export type Group = z.output<typeof groupSchema>;

export const groupsSchema = z.array(groupSchema).max(PEOPLE_LIMITS.groups);

/**
 * Who is told next while nobody acknowledges: a person or a group, so many minutes after the step before was first
 * told. The bounds are judgement: five minutes to get to the telephone, a week.
 */
export const escalationSchema = z
  .array(z.strictObject({ to: idSchema, after_min: z.number().int().min(5).max(10_080) }))
  .max(PEOPLE_LIMITS.escalation);
export type Escalation = z.output<typeof escalationSchema>;

/** Keys of a bed, and of a site, about who is told. */
export const bedTellingShape = { escalation: escalationSchema.optional() } as const;
export const siteTellingShape = {
  escalation: escalationSchema.optional(),
  telling: z.strictObject(tellingShape).optional(),
} as const;
