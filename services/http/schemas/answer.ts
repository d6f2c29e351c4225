import type { z } from 'zod';

/** The `response` part of a route's schema for an answer in JSON. */
export function jsonAnswer<Schema extends z.ZodType>(description: string, schema: Schema) {
  return { description, content: { 'application/json': { schema } } };
}
