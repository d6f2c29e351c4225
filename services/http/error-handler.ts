/** Whatever goes wrong becomes problem details; what is not the asker's doing is reported and not shown. */
import type { Socket } from 'node:net';
import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { SandlarderError } from '../core/errors.js';
import { ERROR_STATUS } from './error-status.js';
import { isLostReader, sendPageMissing } from './page.js';
import { type ProblemParts, problemBody, sendProblem } from './problem.js';
import { PROBLEM_TYPE } from './schemas/problem.js';
import { bodyItems, validationProblem } from './validation-problem.js';

/** Told of every error whose status is 500 or above, with the method and path that met it. */
export type ReportError = (error: unknown, where: string) => void;

/** What the framework's own refusals mean, in our words. */
const FRAMEWORK_DETAIL: Readonly<Record<string, string>> = {
  FST_ERR_BAD_URL: 'address must be valid percent-encoded UTF-8',
  FST_ERR_MAX_PARAM_LENGTH: 'a part of the address is longer than any name or id',
  FST_ERR_CTP_EMPTY_JSON_BODY: 'body must be a JSON object, got nothing',
  FST_ERR_CTP_INVALID_JSON_BODY: 'body must be JSON, got text that is not',
  FST_ERR_CTP_INVALID_CONTENT_LENGTH: 'body must be as long as Content-Length says',
  FST_ERR_CTP_BODY_TOO_LARGE: 'body is longer than is taken here',
  FST_ERR_CTP_INVALID_MEDIA_TYPE: 'Content-Type must be application/json',
};

const INTERNAL: ProblemParts = { status: 500, detail: 'internal error' };

/** What to answer to an error. Anything unknown is 500 and says nothing of the inside. */
export function problemOf(error: unknown): ProblemParts {
  if (error instanceof SandlarderError) {
    const status = ERROR_STATUS[error.code];
    if (status < 500)
      return { status, code: error.code, detail: error.message, errors: bodyItems(error.misfits) };
    return { status, code: error.code, detail: status === 503 ? 'not available just now' : 'internal error' };
  }
  if (!(error instanceof Error)) return INTERNAL;
  const { statusCode = 500, code } = error as FastifyError;
  const validation = validationProblem(error as FastifyError);
  if (validation) return validation;
  if (statusCode >= 400 && statusCode < 500)
    return { status: statusCode, detail: FRAMEWORK_DETAIL[code] ?? 'the request cannot be read' };
  if (code === 'FST_ERR_HANDLER_TIMEOUT') return { status: 503, detail: 'no answer was ready in time' };
  return INTERNAL;
}

/** An error handler for routes and for requests that reach no route. */
export function errorHandler(report: ReportError) {
  return (error: unknown, request: FastifyRequest, reply: FastifyReply): FastifyReply => {
    const problem = problemOf(error);
    if (problem.status >= 500) report(error, `${request.method} ${request.url.split('?', 1)[0]}`);
    return sendProblem(request, reply, problem);
  };
}

/** 404 for an address that is none, to a reader with a browser as a page; 501 for a method of no address [RFC 9110 15.6.2]. */
export function addNotFound(app: FastifyInstance, hasPage = false): void {
  const answer = (request: FastifyRequest, reply: FastifyReply): FastifyReply => {
    if (hasPage && isLostReader(request)) return sendPageMissing(reply);
    return app.supportedMethods.includes(request.method)
      ? sendProblem(request, reply, { status: 404, code: 'NOT_FOUND', detail: 'no such address' })
      : sendProblem(request, reply, { status: 501, detail: `method ${request.method} is not known here` });
  };
  app.addHook('onRequest', async (request, reply) => (request.is404 ? answer(request, reply) : undefined));
  app.setNotFoundHandler(answer);
}

const CLIENT_ERROR: Readonly<Record<string, readonly [status: number, detail: string]>> = {
  ERR_HTTP_REQUEST_TIMEOUT: [408, 'the request did not arrive in time'],
  HPE_HEADER_OVERFLOW: [431, 'the headers are longer than is taken'],
};

/** Answers, and hangs up on, a client whose bytes are no HTTP request. */
export function answerClientError(error: Error & { code?: string }, socket: Socket): void {
  if (error.code === 'ECONNRESET' || socket.destroyed) return;
  const [status, detail] = CLIENT_ERROR[error.code ?? ''] ?? [400, 'not an HTTP request'];
  const problem = problemBody('', { status, detail });
  const body = JSON.stringify(problem);
  if (socket.writable)
    socket.write(
      `HTTP/1.1 ${status} ${problem.title}\r\nContent-Type: ${PROBLEM_TYPE}\r\nContent-Length: ${Buffer.byteLength(body)}\r\nConnection: close\r\n\r\n${body}`,
    );
  socket.destroySoon();
}
