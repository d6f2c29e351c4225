/** How many beds a trial needs, in answers. */
import { z } from 'zod';
import { type PowerBody, TRIAL_DESIGNS } from '../../core/model/trial.js';
import type { TrialSize } from '../../core/trials/index.js';

export const powerSchema = z
  .object({
    bedsOfEach: z.int().meta({ description: 'Beds of each treatment; with blocks, as many blocks' }),
    bedsInAll: z.int(),
    power: z.number().meta({ description: 'Chance to find the difference where it is there' }),
    ...{ design: z.enum(TRIAL_DESIGNS), treatments: z.int() },
    ...{ difference: z.number(), sd: z.number(), alpha: z.number() },
  })
  .meta({ id: 'TrialPower', description: 'How many beds a trial needs, or what so many find' });

export const powerAnswer = (
  { design, treatments, difference, sd, alpha }: PowerBody,
  { bedsOfEach, bedsInAll, power }: TrialSize,
): z.output<typeof powerSchema> => ({
  ...{ bedsOfEach, bedsInAll, power, design, treatments, difference, sd, alpha },
});
