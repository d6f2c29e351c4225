/**
 * Whether a change comes from a page of this service. A page of another site can make a browser send requests, and some
 * that change something, but it cannot make it say that they come from here.
 */
import type { FastifyRequest } from 'fastify';
import type { ProblemParts } from '../problem.js';

const READS: ReadonlySet<string> = new Set(['GET', 'HEAD', 'OPTIONS']);

/** Its form carries its own proof, and is sent by pages that are told to name no origin. */
const PROVEN_ADDRESS = '/answer';

/** @param bySession whether a cookie says who asks: then a browser sends it, and it has to say from where */
export function originProblem(request: FastifyRequest, bySession: boolean): ProblemParts | undefined {
  const { method, headers, routeOptions } = request;
  if (READS.has(method) || routeOptions.url === PROVEN_ADDRESS) return undefined;
  const site = headers['sec-fetch-site'];
  const { origin } = headers;
  const said = site !== undefined || origin !== undefined;
  const isOurs = site === undefined ? isOwn(origin, request) : site === 'same-origin' || site === 'none';
  if (said ? isOurs : !bySession) return undefined;
  return {
    status: 403,
    code: 'FORBIDDEN',
    detail: said
      ? 'changes are taken from pages of this service alone, got one from another page'
      : 'expected the header Origin or Sec-Fetch-Site beside a session, got neither: machines send a token',
  };
}

/** By host and port: what ends TLS before the service may not say by which scheme it was asked. */
const isOwn = (origin: string | undefined, { host }: FastifyRequest): boolean =>
  origin !== undefined && URL.canParse(origin) && new URL(origin).host === host.toLowerCase();
