/** Secrets of probes and lamps at the broker, in answers. */
import { z } from 'zod';
import { DEVICE_KINDS } from '../../core/model/device.js';
import { formatTime } from '../../core/model/time.js';
import type { DeviceSecretView, MadeSecretView } from '../ports.js';

export const deviceSecretSchema = z
  .object({
    user: z.string().meta({ description: 'By which it connects to the broker' }),
    kind: z.enum(DEVICE_KINDS),
    id: z.string().meta({ description: 'Of the probe; a name of the same form for a lamp' }),
    madeAt: z.string().meta({ format: 'date-time', description: 'By the wall clock' }),
  })
  .meta({ id: 'DeviceSecret' });

export const deviceSecretAnswer = ({
  user,
  kind,
  id,
  madeAt,
}: DeviceSecretView): z.output<typeof deviceSecretSchema> => ({
  ...{ user, kind, id, madeAt: formatTime(madeAt) },
});

export const madeSecretSchema = z
  .object({
    ...deviceSecretSchema.shape,
    secret: z.string().meta({ description: 'Its password at the broker: shown this once' }),
    isRenewal: z.boolean().meta({ description: 'Whether one of before holds no more' }),
    isDescribed: z
      .boolean()
      .meta({ description: 'False: no description has the probe, so its readings are kept apart' }),
  })
  .meta({ id: 'MadeSecret' });

export const madeSecretAnswer = ({
  secret,
  isRenewal,
  isDescribed,
  ...view
}: MadeSecretView): z.output<typeof madeSecretSchema> => ({
  ...{ ...deviceSecretAnswer(view), secret, isRenewal, isDescribed },
});
