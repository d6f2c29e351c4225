/** Answers that say what is wrong, as problem details (RFC 9457). */
import { STATUS_CODES } from 'node:http';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { ErrorCode } from '../core/errors.js';
import { PROBLEM_TYPE, type Problem, type ProblemItem } from './schemas/problem.js';

export interface ProblemParts {
  readonly status: number;
  readonly detail: string;
  readonly code?: ErrorCode | undefined;
  readonly errors?: readonly ProblemItem[] | undefined;
}

/**
 * The body of a problem.
 *
 * `type` is `about:blank`, so `title` is the phrase of the status [RFC 9457 4.2.1]; `instance` is the path without
 * its query, which may hold what should not be repeated.
 */
export function problemBody(target: string, { status, detail, code, errors }: ProblemParts): Problem {
  return {
    type: 'about:blank',
    title: STATUS_CODES[status] ?? 'Error',
    status,
    detail,
    instance: target.split('?', 1)[0] ?? '',
    ...(code === undefined ? {} : { code }),
    ...(errors === undefined || errors.length === 0 ? {} : { errors: [...errors] }),
  };
}

/** Sends a problem; hooks and handlers return its result. */
export function sendProblem(request: FastifyRequest, reply: FastifyReply, parts: ProblemParts): FastifyReply {
  return reply
    .code(parts.status)
    .type(PROBLEM_TYPE)
    .send(JSON.stringify(problemBody(request.url, parts)));
}
