/** Who may do what, in answers; and by which ways people can be told here. */
import { z } from 'zod';
import { VIAS } from '../../core/model/people.js';
import type { AccessView } from '../ports.js';

const partySchema = z.object({
  id: z.enum(['service', 'short-messages', 'links', 'gateway', 'probes', 'machine']),
  isOpen: z.boolean().meta({ description: 'Whether there is such a way in, as the service was started' }),
  who: z.string(),
  proof: z.string().meta({ description: 'What they have to show' }),
  may: z.array(z.string()),
  mayNot: z.array(z.string()),
});

export const accessSchema = z
  .object({ asksForCredentials: z.boolean(), notes: z.array(z.string()), parties: z.array(partySchema) })
  .meta({ id: 'Access' });

export const accessAnswer = ({
  asksForCredentials,
  notes,
  parties,
}: AccessView): z.output<typeof accessSchema> => ({
  asksForCredentials,
  notes: [...notes],
  parties: parties.map(({ may, mayNot, ...rest }) => ({ ...rest, may: [...may], mayNot: [...mayNot] })),
});

export const waySchema = z
  .object({
    via: z.enum(VIAS),
    usable: z.boolean().meta({ description: 'Whether messages leave this service that way' }),
    answers: z.boolean().meta({ description: 'Whether answers come back that way' }),
  })
  .meta({ id: 'Way' });
