/** Ids of sites, beds, probes and people: the contract's `[a-z0-9][a-z0-9-]{0,31}`. */
import { z } from 'zod';

export const ID_PATTERN = /^[a-z0-9][a-z0-9-]{0,31}$/;

export const idSchema = z
  .string()
  .regex(ID_PATTERN, 'expected 1 to 32 of a-z, 0-9 and "-", beginning with a letter or digit');
