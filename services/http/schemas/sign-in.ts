/** Who signs in, and what they and machines may do, in bodies and answers. */
import { z } from 'zod';
import { idSchema } from '../../core/model/id.js';
import { ACTIONS, PERSON_ROLES, ROLES } from '../../core/model/roles.js';
import { formatTime } from '../../core/model/time.js';
import { HTTP_LIMITS } from '../limits.js';
import {
  ACCESS_STANDINGS,
  type AccountView,
  type AuditView,
  type SessionView,
  type TokenView,
} from '../ports-access.js';
import { timeTextSchema } from './time.js';

/** Longer than any name or password that will do. */
const nameSchema = z.string().max(100);
const passwordSchema = z.string().max(1_000);
const secretSchema = z.string().max(200).meta({ description: 'What follows # in the link' });
const shownSchema = z.string().trim().min(1).max(100).meta({ description: 'As others call them' });

/** Beds of one keeper. */
const bedsSchema = z.array(idSchema).max(200);

const timeSchema = z.string().meta({ format: 'date-time', description: 'By the wall clock' });

export const signInBodySchema = z.strictObject({ name: nameSchema, password: passwordSchema });
export const sendLinkBodySchema = z.strictObject({ name: nameSchema });
export const lookBodySchema = z.strictObject({ link: secretSchema });
export const linkBodySchema = z.strictObject({
  link: secretSchema,
  name: nameSchema.optional().meta({ description: 'Of the first steward: by which they sign in' }),
  shown: shownSchema.optional(),
  password: passwordSchema.optional(),
});
export const passwordBodySchema = z.strictObject({ before: passwordSchema, next: passwordSchema });

export const meSchema = z
  .object({
    access: z.enum(ACCESS_STANDINGS).meta({
      description:
        '`open`: nobody is asked who reaches the service; `first-steward`: only the link of the first steward lets in; `sign-in`: people sign in',
    }),
    isIn: z.boolean().meta({ description: 'Whether whoever asks may ask for more' }),
    kind: z.enum(['anyone', 'shared', 'person', 'machine']).nullable(),
    name: z.string().nullable(),
    shown: z.string().nullable(),
    role: z.enum(ROLES).nullable(),
    beds: z.array(z.string()).meta({ description: 'Of a keeper: the beds at which they may' }),
    may: z.array(z.enum(ACTIONS)),
    sendsLinks: z.boolean().meta({ description: 'Whether a link can be sent to whoever asks by name' }),
    madeUp: z.object({ from: timeTextSchema, to: timeTextSchema, timezone: z.string() }).optional().meta({
      description:
        'Where what is here is a made-up season: its first and last moment, and the time zone of its site',
    }),
  })
  .meta({ id: 'Me' });

export const purposeSchema = z
  .object({
    purpose: z.enum(['first-steward', 'choose-password', 'sign-in']),
    name: z.string().nullable(),
    shown: z.string().nullable(),
  })
  .meta({ id: 'LinkPurpose' });

export const sessionSchema = z
  .object({
    id: z.string(),
    account: z.string(),
    isThis: z.boolean().meta({ description: 'Whether it is the one that asks' }),
    madeAt: timeSchema,
    usedAt: timeSchema,
    endsAt: timeSchema,
    address: z.string(),
    device: z.string(),
  })
  .meta({ id: 'Session' });

export const sessionAnswer = (view: SessionView, own: string | null): z.output<typeof sessionSchema> => ({
  ...{
    id: view.id,
    account: view.account,
    isThis: view.id === own,
    address: view.address,
    device: view.device,
  },
  ...{ madeAt: formatTime(view.madeAt), usedAt: formatTime(view.usedAt), endsAt: formatTime(view.endsAt) },
});

const personSchema = z.object({ site: idSchema, id: idSchema });

export const accountBodySchema = z.strictObject({
  shown: shownSchema,
  role: z.enum(PERSON_ROLES),
  beds: bedsSchema.default([]),
  person: z.strictObject(personSchema.shape).nullable().default(null),
  closed: z.boolean().default(false).meta({ description: 'Whether they may not sign in any more' }),
});

export const accountSchema = z
  .object({
    name: z.string(),
    shown: z.string(),
    role: z.enum(ROLES),
    beds: z.array(z.string()),
    person: personSchema.nullable(),
    hasPassword: z.boolean(),
    madeAt: timeSchema,
    closedAt: timeSchema.nullable(),
  })
  .meta({ id: 'Account' });

const known = (time: number | null): string | null => (time === null ? null : formatTime(time));

export const accountAnswer = ({
  madeAt,
  closedAt,
  beds,
  ...rest
}: AccountView): z.output<typeof accountSchema> => ({
  ...{ ...rest, beds: [...beds], madeAt: formatTime(madeAt), closedAt: known(closedAt) },
});

export const madeLinkSchema = z.object({
  link: z
    .string()
    .meta({ description: 'Address of this service by which they choose a password: shown this once' }),
  endsAt: timeSchema,
});

export const tokenBodySchema = z.strictObject({
  name: shownSchema,
  role: z.enum(ROLES),
  beds: bedsSchema.default([]),
  days: z.number().int().min(HTTP_LIMITS.token_days.least).max(HTTP_LIMITS.token_days.most).default(400),
});

export const tokenSchema = z
  .object({
    ...{
      id: z.string(),
      name: z.string(),
      role: z.enum(ROLES),
      beds: z.array(z.string()),
      madeBy: z.string(),
    },
    ...{
      madeAt: timeSchema,
      endsAt: timeSchema,
      usedAt: timeSchema.nullable(),
      revokedAt: timeSchema.nullable(),
    },
  })
  .meta({ id: 'MachineToken' });

export const tokenAnswer = (view: TokenView): z.output<typeof tokenSchema> => ({
  ...{ id: view.id, name: view.name, role: view.role, beds: [...view.beds], madeBy: view.madeBy },
  ...{ madeAt: formatTime(view.madeAt), endsAt: formatTime(view.endsAt) },
  ...{ usedAt: known(view.usedAt), revokedAt: known(view.revokedAt) },
});

export const madeTokenSchema = z.object({
  secret: z.string().meta({ description: 'Sent as `Authorization: Bearer …`: shown this once' }),
  token: tokenSchema,
});

export const auditQuerySchema = z.strictObject({
  before: z.coerce.number().int().min(1).optional().meta({ description: 'Only rows before this number' }),
  limit: z.coerce.number().int().min(1).max(HTTP_LIMITS.audit.most).default(HTTP_LIMITS.audit.usual),
});

export const auditSchema = z
  .object({
    ...{ seq: z.number().int(), at: timeSchema, who: z.string(), how: z.string(), address: z.string() },
    ...{ did: z.string(), what: z.string() },
    result: z.string().nullable().meta({ description: 'Null where the service ended over it' }),
  })
  .meta({ id: 'AuditEntry' });

export const auditAnswer = ({ at, ...rest }: AuditView): z.output<typeof auditSchema> => ({
  ...rest,
  at: formatTime(at),
});
