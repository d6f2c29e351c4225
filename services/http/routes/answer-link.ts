import type { FastifyReply, FastifyRequest } from 'fastify';
import { catalogueOf, say } from '../../core/alarms/languages/index.js';
import { SandlarderError } from '../../core/errors.js';
import { FINDINGS, type Finding } from '../../core/model/inspection.js';
import { Attempts } from '../attempts.js';
import type { HttpApp } from '../http-app.js';
import { HTTP_LIMITS } from '../limits.js';
import { linkPage, noLinkPage, QUIET_h } from '../link-page.js';
import type { HttpPorts, LinkAnswer, PeoplePorts } from '../ports.js';
import { sendProblem } from '../problem.js';
import { linkQuerySchema } from '../schemas/people.js';

/** A link's page in whoever's browser: what its message told of, and the answers to it. */
export function addAnswerLink(app: HttpApp, { people }: HttpPorts, now: () => number): void {
  const attempts = new Attempts(HTTP_LIMITS.linkAttempts, now);
  const bounded = async (request: FastifyRequest, reply: FastifyReply) => {
    const wait_s = attempts.refuse(request.ip);
    if (wait_s === undefined) return undefined;
    reply.header('retry-after', String(wait_s));
    return sendProblem(request, reply, {
      status: 429,
      detail: `too many attempts, try again in ${wait_s} s`,
    });
  };
  const shared = { onRequest: bounded, schema: { hide: true, querystring: linkQuerySchema } };
  app.get('/answer', shared, (request, reply) =>
    pageOr(request, reply, () => ({ status: 200, page: linkPage(people.link(request.query.t)) })),
  );
  app.post('/answer', shared, (request, reply) =>
    pageOr(request, reply, () => answered(people, request.query.t, request.body, readsPages(request))),
  );
}

interface Answered {
  readonly status: number;
  readonly page: string;
}

/** A browser says that it wants a page, a program gets a problem. */
const readsPages = ({ headers }: FastifyRequest): boolean => headers.accept?.includes('text/html') ?? false;

function pageOr(request: FastifyRequest, reply: FastifyReply, make: () => Answered): FastifyReply {
  const { status, page } = madeOr(request, make);
  reply.type('text/html; charset=utf-8').header('referrer-policy', 'no-referrer');
  reply.header(
    'content-security-policy',
    "default-src 'none'; style-src 'unsafe-inline'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'",
  );
  return reply.code(status).send(page);
}

function madeOr(request: FastifyRequest, make: () => Answered): Answered {
  try {
    return make();
  } catch (error) {
    if (!(error instanceof SandlarderError && error.code === 'NOT_FOUND' && readsPages(request))) throw error;
    return { status: 404, page: noLinkPage() };
  }
}

/** What was used or is over, and a form that is not filled in, are shown again with what is wrong. */
function answered(people: PeoplePorts, token: string, body: unknown, showsTrouble: boolean): Answered {
  const again = (status: number, key: 'page.used' | 'page.tick'): Answered => {
    const view = people.link(token);
    return { status, page: linkPage(view, say(catalogueOf(view.language), key)) };
  };
  try {
    const { view, said } = people.useLink(token, linkAnswerOf(body));
    return { status: 200, page: linkPage(view, said) };
  } catch (error) {
    const code = error instanceof SandlarderError ? error.code : undefined;
    if (code === 'CONFLICT') return again(409, 'page.used');
    if (code === 'BAD_REQUEST' && showsTrouble) return again(400, 'page.tick');
    throw error;
  }
}

const isFinding = (value: string): value is Finding => (FINDINGS as readonly string[]).includes(value);

function linkAnswerOf(body: unknown): LinkAnswer {
  const form = new URLSearchParams(typeof body === 'string' ? body : '');
  const kind = form.get('answer');
  const findings = form.getAll('found').filter(isFinding);
  if (kind !== 'seen' && kind !== 'found' && kind !== 'quiet')
    throw new SandlarderError(
      'BAD_REQUEST',
      `answer: expected seen, found or quiet, got ${JSON.stringify(kind)}`,
    );
  if (kind === 'found' && (findings.length === 0 || (findings.length > 1 && findings.includes('nothing'))))
    throw new SandlarderError('BAD_REQUEST', 'found: expected "nothing" alone, or what was found');
  const alarm = form.get('alarm') ?? undefined;
  return { kind, findings, repacked: form.get('repacked') === 'yes', hours: QUIET_h, alarm };
}
