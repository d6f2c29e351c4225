/** A limit beside what was held against it, in answers. */
import { z } from 'zod';

export const limitSchema = z
  .object({ name: z.string(), value: z.number(), unit: z.string(), source: z.string() })
  .meta({ id: 'Limit', description: 'A threshold in force, with where its value comes from' });

export const metSchema = z.enum(['met', 'not met', 'unknown']);
