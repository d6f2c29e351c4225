/**
 * What every request passes before its route is looked at. Without credentials the service trusts its own machine,
 * so a page in a browser on that machine must not be able to ask in its user's place.
 */
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { hostOfHeader, isLoopback } from './address.js';
import { CHALLENGE, type Credentials, credentialsJudge } from './credentials.js';
import { HTTP_LIMITS } from './limits.js';
import { type ProblemParts, sendProblem } from './problem.js';

/** Answered without a password, so that a watchdog needs none. */
const OPEN_ADDRESS = '/api/health';

/** Answered to anyone, under any name of this service: a link carries its own proof, and its page is all that it gives. */
const PROVEN_ADDRESS = '/answer';

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
 * 421 for a Host that is not this machine: a name of somebody else's that was made to point at the loopback (DNS
 * rebinding) would let their page read the answers.
 */
const hostIsThisMachine: Guard = ({ headers, routeOptions }) => {
  const host = hostOfHeader(headers.host);
  if (routeOptions.url === PROVEN_ADDRESS || (host !== undefined && isLoopback(host))) return undefined;
  return {
    status: 421,
    detail: `without credentials configured, Host must name this machine (localhost, 127.0.0.1, [::1]), got ${JSON.stringify(headers.host ?? null)}`,
  };
};

const credentialsAreRight = (credentials: Credentials): Guard => {
  const isRight = credentialsJudge(credentials);
  return ({ headers, routeOptions }) =>
    routeOptions.url === OPEN_ADDRESS || routeOptions.url === PROVEN_ADDRESS || isRight(headers.authorization)
      ? undefined
      : { status: 401, code: 'UNAUTHORISED', detail: 'user and password expected by HTTP Basic' };
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
export function addGuards(app: FastifyInstance, credentials: Credentials | undefined): void {
  const whoAsks = credentials === undefined ? hostIsThisMachine : credentialsAreRight(credentials);
  const guards = [targetLength, whoAsks, bodyIsJson];
  app.addHook('onRequest', async (request, reply) => {
    for (const guard of guards) {
      const problem = guard(request);
      if (problem) return refuse(request, reply, problem);
    }
    return undefined;
  });
}

function refuse(request: FastifyRequest, reply: FastifyReply, problem: ProblemParts): FastifyReply {
  if (problem.status === 401) reply.header('www-authenticate', CHALLENGE);
  return sendProblem(request, reply, problem);
}
