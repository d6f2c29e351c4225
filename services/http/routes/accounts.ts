import { z } from 'zod';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { problemResponses } from '../schemas/problem.js';
import {
  accountAnswer,
  accountBodySchema,
  accountSchema,
  auditAnswer,
  auditQuerySchema,
  auditSchema,
  madeLinkSchema,
  sessionAnswer,
  sessionSchema,
} from '../schemas/sign-in.js';
import { formatKnownTime } from '../schemas/time.js';

const TAGS = ['access'];
const namePathSchema = z.strictObject({ name: z.string().max(100) });
const idPathSchema = z.strictObject({ id: z.string().max(100) });

/** Who may sign in, their sessions, and the audit trail. */
export function addAccounts(app: HttpApp, ports: HttpPorts): void {
  addPeople(app, ports);
  addSessions(app, ports);
  addTrail(app, ports);
}

function addPeople(app: HttpApp, { access }: HttpPorts): void {
  app.get(
    '/api/accounts',
    {
      schema: {
        ...{ operationId: 'listAccounts', summary: 'Who may sign in', tags: TAGS },
        response: { 200: jsonAnswer('They', z.array(accountSchema)), ...problemResponses(401, 403) },
      },
    },
    () => access.accounts().map(accountAnswer),
  );
  app.put(
    '/api/accounts/:name',
    {
      schema: {
        ...{ operationId: 'putAccount', tags: TAGS, params: namePathSchema, body: accountBodySchema },
        summary: 'Let somebody sign in, give another role, or let them sign in no more',
        response: {
          200: jsonAnswer('As it stands now', accountSchema),
          ...problemResponses(400, 401, 403, 409, 413, 415),
        },
      },
    },
    ({ params, body }) => accountAnswer(access.putAccount(params.name, body)),
  );
  app.post(
    '/api/accounts/:name/link',
    {
      schema: {
        ...{ operationId: 'makeLink', tags: TAGS, params: namePathSchema },
        summary: 'A link by which they choose a password: it holds three days, and once',
        response: { 200: jsonAnswer('The link', madeLinkSchema), ...problemResponses(401, 403, 404) },
      },
    },
    ({ params, protocol, host }) => {
      const { secret, endsAt } = access.linkFor(params.name);
      return { link: `${protocol}://${host}/sign-in#${secret}`, endsAt: formatKnownTime(endsAt) as string };
    },
  );
}

/** Whoever signed in sees and ends their own, a steward those of all. */
function addSessions(app: HttpApp, { access }: HttpPorts): void {
  for (const [url, own, operation] of [
    ['/api/me/sessions', true, 'OwnSession'],
    ['/api/sessions', false, 'Session'],
  ] as const) {
    app.get(
      url,
      {
        schema: {
          ...{ operationId: `list${operation}s`, tags: TAGS },
          summary: own ? 'Where one is signed in' : 'Who is signed in, and where',
          response: { 200: jsonAnswer('They', z.array(sessionSchema)), ...problemResponses(401, 403) },
        },
      },
      ({ asker }) =>
        access
          .sessions(own ? (asker?.name ?? '') : null)
          .map((session) => sessionAnswer(session, asker?.session ?? null)),
    );
    app.post(
      `${url}/:id/revoke`,
      {
        schema: {
          ...{
            operationId: `revoke${operation}`,
            summary: 'End a session',
            tags: TAGS,
            params: idPathSchema,
          },
          response: { 204: z.undefined().describe('It is done'), ...problemResponses(401, 403, 404) },
        },
      },
      ({ params, asker }, reply) => {
        access.revokeSession(params.id, own ? (asker?.name ?? '') : null);
        reply.code(204).send();
      },
    );
  }
}

function addTrail(app: HttpApp, { access }: HttpPorts): void {
  app.get(
    '/api/audit',
    {
      schema: {
        ...{ operationId: 'listAudit', tags: TAGS, querystring: auditQuerySchema },
        summary: 'What was changed, by whom, from where, and what came of it: the newest first',
        response: { 200: jsonAnswer('Rows', z.array(auditSchema)), ...problemResponses(400, 401, 403) },
      },
    },
    ({ query }) => access.audit(query.before ?? Number.MAX_SAFE_INTEGER, query.limit).map(auditAnswer),
  );
}
