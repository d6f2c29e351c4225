import { z } from 'zod';

/** Who did or found something, by the name that people know. */
export const whoSchema = z.string().trim().min(1).max(100);
