/** Problem details, the body of every error (RFC 9457). */
import { z } from 'zod';
import { ERROR_CODES } from '../../core/errors.js';

/** Media type of every error. */
export const PROBLEM_TYPE = 'application/problem+json';

/** One thing wrong with a request: in the body (`pointer`, RFC 6901 as a URI fragment) or beside it (`parameter`). */
const problemItemSchema = z.object({
  pointer: z.string().optional(),
  parameter: z.string().optional(),
  detail: z.string(),
});

export const problemSchema = z
  .object({
    type: z.string().meta({ description: '`about:blank`: the status says what kind of problem it is' }),
    title: z.string().meta({ description: 'The phrase of the status' }),
    status: z.number().int().min(400).max(599),
    detail: z.string().meta({ description: 'What was expected and what came, in a sentence' }),
    instance: z.string().meta({ description: 'The path that was asked for' }),
    code: z.enum(ERROR_CODES).optional().meta({ description: "The program's own code, where it has one" }),
    errors: z.array(problemItemSchema).optional(),
  })
  .meta({ id: 'Problem', description: 'Problem details (RFC 9457)' });

export type Problem = z.output<typeof problemSchema>;
export type ProblemItem = z.output<typeof problemItemSchema>;

const MEANING: Readonly<Record<number, string>> = {
  400: 'The request is malformed; `errors` says where',
  401: 'Nobody showed who they are, or it does not hold',
  403: 'Whoever asks may not do it, or a page of another site asked for it',
  404: 'There is no such thing',
  409: 'It contradicts what is already known',
  412: 'It was changed by somebody else meanwhile, or is there already',
  413: 'The body is longer than is taken',
  415: 'The body is not `application/json`',
  422: 'It is understood, but cannot be done: the sentence says what is missing',
  429: 'Too many attempts: `Retry-After` says when',
  428: 'The header If-Match or If-None-Match is missing',
  503: 'Not available just now',
};

/** The `response` part of a route's schema for the statuses named, each as problem details. */
export function problemResponses(...statuses: readonly number[]) {
  return Object.fromEntries(
    statuses.map((status) => [
      status,
      {
        description: MEANING[status] ?? 'Problem details',
        content: { [PROBLEM_TYPE]: { schema: problemSchema } },
      },
    ]),
  );
}
