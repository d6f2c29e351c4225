/** What every request passes before its route is looked at. */
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { reachOf } from './access/actions.js';
import { deedOf } from './access/audit-hooks.js';
import { Gate, type GateParts, type Refused } from './access/gate.js';
import { HTTP_LIMITS } from './limits.js';
import { type ProblemParts, sendProblem } from './problem.js';

/** The problem with a request, or undefined where it may pass. */
type Guard = (request: FastifyRequest) => ProblemParts | undefined;

/** 414 for a target longer than any link of this service. */
const targetLength: Guard = ({ url }) =>
  url.length <= HTTP_LIMITS.url_bytes
    ? undefined
    : {
        status: 414,
        detail: `address must be at most ${HTTP_LIMITS.url_bytes} characters, got ${url.length}`,
      };

/**
 * 415 for a body that is not JSON. A form of another site's page can send text or form data without asking first,
 * but not `application/json`: that makes the browser ask, and it gets no leave.
 */
const bodyIsJson: Guard = ({ headers, routeOptions }) => {
  if (routeOptions.schema?.body === undefined) return undefined;
  const mediaType = headers['content-type']?.split(';', 1)[0]?.trim().toLowerCase();
  if (mediaType !== 'application/json')
    return {
      status: 415,
      detail: `Content-Type must be application/json, got ${JSON.stringify(mediaType ?? null)}`,
    };
  const coding = headers['content-encoding'];
  if (coding !== undefined && coding.toLowerCase() !== 'identity')
    return { status: 415, detail: `Content-Encoding must be absent, got ${JSON.stringify(coding)}` };
  return undefined;
};

/** Puts the guards before every route, the unknown ones too. */
export function addGuards(app: FastifyInstance, parts: GateParts): void {
  const gate = new Gate(parts);
  const isPermitted: Guard = (request) => {
    const { asker, refused } = gate.pass(request);
    request.asker = asker;
    if (refused?.status === 403) parts.access.refused(deedOf(request), refused.detail);
    return refused;
  };
  requireReach(app);
  app.decorateRequest('asker', undefined);
  app.decorateRequest('began', null);
  app.decorateRequest('stillHolds', function stillHolds(this: FastifyRequest) {
    return gate.stillHolds(this);
  });
  app.addHook('onRequest', async (request, reply) => {
    for (const guard of [targetLength, isPermitted, bodyIsJson]) {
      const problem = guard(request);
      if (problem) return refuse(request, reply, problem);
    }
    return undefined;
  });
}

/** Writes beside each route what it asks for. Throws where the table does not say it. */
function requireReach(app: FastifyInstance): void {
  app.addHook('onRoute', (route) => {
    const { url, method, config } = route;
    if (config?.refuses) return;
    const [reach, ...others] = new Set([method].flat().map((one) => reachOf(one, url)));
    if (reach === undefined || others.length > 0)
      throw new Error(`${String(method)} ${url}: expected one entry in access/actions.ts, got none`);
    route.config = { ...config, reach };
  });
}

function refuse(request: FastifyRequest, reply: FastifyReply, problem: Refused): FastifyReply {
  if (problem.challenge !== undefined) reply.header('www-authenticate', problem.challenge);
  return sendProblem(request, reply, problem);
}
