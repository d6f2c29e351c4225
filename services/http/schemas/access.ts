/** Who may do what, in answers; and by which ways people can be told here. */
import { z } from 'zod';
import { VIAS } from '../../core/model/people.js';
import { ACTIONS, ROLES } from '../../core/model/roles.js';
import { ACCESS_STANDINGS, type AccessView } from '../ports.js';

const partySchema = z.object({
  id: z.enum(['service', 'short-messages', 'links', 'gateway', 'probes', 'devices', 'machine']),
  isOpen: z.boolean().meta({ description: 'Whether there is such a way in, as the service was started' }),
  who: z.string(),
  proof: z.string().meta({ description: 'What they have to show' }),
  may: z.array(z.string()),
  mayNot: z.array(z.string()),
});

export const accessSchema = z
  .object({
    standing: z.enum(ACCESS_STANDINGS),
    asksForCredentials: z.boolean(),
    notes: z.array(z.string()),
    roles: z.array(
      z.object({
        role: z.enum(ROLES),
        may: z.array(z.enum(ACTIONS)),
        atNamedBeds: z
          .array(z.enum(ACTIONS))
          .meta({ description: 'Of these: only at the beds that are named with the role' }),
      }),
    ),
    parties: z.array(partySchema),
  })
  .meta({ id: 'Access' });

export const accessAnswer = ({
  standing,
  asksForCredentials,
  notes,
  roles,
  parties,
}: AccessView): z.output<typeof accessSchema> => ({
  ...{ standing, asksForCredentials, notes: [...notes] },
  roles: roles.map(({ role, may, atNamedBeds }) => ({ role, may: [...may], atNamedBeds: [...atNamedBeds] })),
  parties: parties.map(({ may, mayNot, ...rest }) => ({ ...rest, may: [...may], mayNot: [...mayNot] })),
});

export const waySchema = z
  .object({
    via: z.enum(VIAS),
    usable: z.boolean().meta({ description: 'Whether messages leave this service that way' }),
    answers: z.boolean().meta({ description: 'Whether answers come back that way' }),
  })
  .meta({ id: 'Way' });
