/** Requests against their schemas; what is wrong is said in our words, with what was there. */
import type { FastifySchemaCompiler } from 'fastify';
import type { z } from 'zod';
import { issueWords } from '../core/model/problem.js';

type Finding = {
  readonly keyword: string;
  readonly instancePath: string;
  readonly schemaPath: string;
  readonly message: string;
  readonly params: Record<string, string | string[]>;
};

function findingOf(issue: z.core.$ZodIssue): Finding {
  const path = issue.path.map(String).join('/');
  return {
    keyword: issue.code,
    instancePath: `/${path}`,
    schemaPath: `#/${path}/${issue.code}`,
    message: issueWords(issue),
    params: issue.code === 'unrecognized_keys' ? { keys: issue.keys } : {},
  };
}

/** As the type provider's own, but for the words. */
export const validatorCompiler: FastifySchemaCompiler<z.ZodType> =
  ({ schema }) =>
  (data) => {
    const parsed = schema.safeParse(data, { reportInput: true });
    // The framework takes findings for an error, as the type provider does; its type does not say so.
    return parsed.success
      ? { value: parsed.data }
      : { error: parsed.error.issues.map(findingOf) as unknown as Error };
  };
