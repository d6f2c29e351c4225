import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { actionsOf, may } from '../../core/model/roles.js';
import { formatTime } from '../../core/model/time.js';
import { noCookie, sessionCookie } from '../access/cookie.js';
import { Attempts } from '../attempts.js';
import type { HttpApp } from '../http-app.js';
import { HTTP_LIMITS } from '../limits.js';
import type { AccessPorts, AskedFrom, Asker, HttpPorts, SignedIn } from '../ports.js';
import { sendProblem } from '../problem.js';
import { jsonAnswer } from '../schemas/answer.js';
import { problemResponses } from '../schemas/problem.js';
import {
  linkBodySchema,
  lookBodySchema,
  meSchema,
  passwordBodySchema,
  purposeSchema,
  sendLinkBodySchema,
  signInBodySchema,
} from '../schemas/sign-in.js';

/** First and last moment of a made-up season, ms, and the time zone of its site. */
export interface MadeUp {
  readonly from: number;
  readonly to: number;
  readonly timezone: string;
}

const TAGS = ['access'];
const IN = { 200: jsonAnswer('Who is signed in; the session is in a cookie', meSchema) };

/** Signing in, by a password or a link, and out. */
export function addSignIn(app: HttpApp, { access }: HttpPorts, now: () => number, madeUp?: MadeUp): void {
  const answer = answering(access, now);
  addMe(app, access, madeUp);
  addIn(app, access, answer, new Attempts(HTTP_LIMITS.signInAttempts, now));
  addOwn(app, access, answer);
}

const from = ({ ip, headers }: FastifyRequest): AskedFrom => ({
  address: ip,
  device: headers['user-agent'] ?? '',
});

function meOf(access: AccessPorts, asker: Asker | undefined): z.output<typeof meSchema> {
  const standing = access.standing();
  const isMissing = asker === undefined;
  return {
    ...{ access: standing, isIn: !isMissing, kind: asker?.kind ?? null, name: asker?.name ?? null },
    ...{ shown: asker?.shown ?? null, role: asker?.role ?? null, beds: [...(asker?.beds ?? [])] },
    may: asker ? actionsOf(asker.role).filter((action) => mayNow(asker, action)) : [],
    sendsLinks: access.sendsLinks,
  };
}

/** Whoever has no sign-in of their own has no password and no sessions; of an open service nobody has. */
const mayNow = (asker: Asker, action: Parameters<typeof may>[1]): boolean =>
  may(asker, action) &&
  (asker.kind === 'person' || action !== 'own') &&
  (asker.kind !== 'anyone' || action !== 'administer');

type Answer = (request: FastifyRequest, reply: FastifyReply, signedIn: SignedIn) => FastifyReply;

const answering =
  (access: AccessPorts, now: () => number): Answer =>
  (request, reply, signedIn) => {
    if (signedIn.kind === 'in') {
      reply.header('set-cookie', sessionCookie(request, signedIn.secret, signedIn.endsAt, now()));
      return reply.send(meOf(access, signedIn.asker));
    }
    if (signedIn.kind === 'wait') return tooMany(request, reply, signedIn.wait_s);
    const detail =
      'that does not let anybody in: the name, the password or the link is not right, or not any more';
    return sendProblem(request, reply, { status: 401, code: 'UNAUTHORISED', detail });
  };

function tooMany(request: FastifyRequest, reply: FastifyReply, wait_s: number): FastifyReply {
  reply.header('retry-after', String(wait_s));
  const detail = `too many attempts, try again in ${wait_s} s`;
  return sendProblem(request, reply, { status: 429, code: 'TOO_MANY_ATTEMPTS', detail });
}

function addMe(app: HttpApp, access: AccessPorts, madeUp: MadeUp | undefined): void {
  app.get(
    '/api/me',
    {
      schema: {
        operationId: 'getMe',
        summary: 'Who asks, what they may do, and whether what is here is made up',
        tags: TAGS,
        security: [],
        response: { 200: jsonAnswer('They', meSchema) },
      },
    },
    ({ asker }) => ({
      ...meOf(access, asker),
      ...(madeUp && {
        madeUp: { ...madeUp, from: formatTime(madeUp.from), to: formatTime(madeUp.to) },
      }),
    }),
  );
}

function addIn(app: HttpApp, access: AccessPorts, answer: Answer, attempts: Attempts): void {
  const onRequest = async (request: FastifyRequest, reply: FastifyReply) => {
    const wait_s = attempts.refuse(request.ip);
    return wait_s === undefined ? undefined : tooMany(request, reply, wait_s);
  };
  const shared = { tags: TAGS, security: [] };
  app.post(
    '/api/sign-in',
    {
      onRequest,
      schema: {
        ...{
          ...shared,
          operationId: 'signIn',
          summary: 'Sign in by name and password',
          body: signInBodySchema,
        },
        response: { ...IN, ...problemResponses(400, 401, 403, 413, 415, 429) },
      },
    },
    async (request, reply) =>
      answer(request, reply, await access.signIn(request.body.name, request.body.password, from(request))),
  );
  app.post(
    '/api/sign-in/send-link',
    {
      onRequest,
      schema: {
        ...{ ...shared, operationId: 'sendSignInLink', body: sendLinkBodySchema },
        summary:
          'Send a link to the telephone or mailbox of whoever has the name; the answer does not say whether',
        response: {
          202: z.undefined().describe('It may be on its way'),
          ...problemResponses(400, 403, 413, 415, 429),
        },
      },
    },
    (request, reply) => {
      access.sendLink(request.body.name, from(request));
      reply.code(202).send();
    },
  );
  app.post(
    '/api/sign-in/look',
    {
      onRequest,
      schema: {
        ...{ ...shared, operationId: 'lookAtLink', summary: 'What a link is for', body: lookBodySchema },
        response: {
          200: jsonAnswer('Its purpose', purposeSchema),
          ...problemResponses(400, 403, 404, 413, 415, 429),
        },
      },
    },
    (request, reply) => {
      const link = access.link(request.body.link);
      if (link) return { ...link };
      const detail =
        'link: expected one that was made here and still holds, got one that was used, is over, or none';
      return sendProblem(request, reply, { status: 404, code: 'NOT_FOUND', detail }) as never;
    },
  );
  app.post(
    '/api/sign-in/link',
    {
      onRequest,
      schema: {
        ...{ ...shared, operationId: 'useLink', summary: 'Sign in by a link, once', body: linkBodySchema },
        response: { ...IN, ...problemResponses(400, 401, 403, 409, 413, 415, 429) },
      },
    },
    async (request, reply) => {
      const { link, ...chosen } = request.body;
      return answer(request, reply, await access.useLink(link, chosen, from(request)));
    },
  );
}

/** What somebody does with their own sign-in. */
function addOwn(app: HttpApp, access: AccessPorts, answer: Answer): void {
  app.post(
    '/api/sign-out',
    {
      schema: {
        ...{ operationId: 'signOut', summary: 'End this session', tags: TAGS },
        response: { 204: z.undefined().describe('It is done'), ...problemResponses(401, 403) },
      },
    },
    (request, reply) => {
      if (request.asker) access.signOut(request.asker);
      reply.header('set-cookie', noCookie(request)).code(204).send();
    },
  );
  app.put(
    '/api/me/password',
    {
      schema: {
        ...{ operationId: 'changePassword', tags: TAGS, body: passwordBodySchema },
        summary: 'Change the password by the one before; every other session ends',
        response: { ...IN, ...problemResponses(400, 401, 403, 413, 415, 429) },
      },
    },
    async (request, reply) => {
      const { before, next } = request.body;
      const changed = await access.changePassword(request.asker as Asker, before, next, from(request));
      if (changed.kind !== 'wrong') return answer(request, reply, changed);
      const problem = { pointer: '#/before', detail: 'that is not the password' };
      return sendProblem(request, reply, {
        ...{ status: 400, code: 'BAD_REQUEST', detail: `before: ${problem.detail}`, errors: [problem] },
      });
    },
  );
}
