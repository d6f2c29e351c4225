/** The cookie that holds a session's secret [RFC 6265]: no script reads it, and no other site's page sends it. */
import type { FastifyRequest } from 'fastify';

/** With TLS the name binds it to this host and to secure answers [RFC 6265bis 4.1.3.2]. */
const NAMES = { secure: '__Host-sandlarder', plain: 'sandlarder' } as const;

/** 256 bits in base64url. */
const SECRET = /^[A-Za-z0-9_-]{43}$/;

const isSecure = ({ protocol }: FastifyRequest): boolean => protocol === 'https';

const nameFor = (request: FastifyRequest): string => (isSecure(request) ? NAMES.secure : NAMES.plain);

/** The secret in a request; undefined where there is none, or something that cannot be one. */
export function sessionSecret(request: FastifyRequest): string | undefined {
  const name = nameFor(request);
  for (const pair of (request.headers.cookie ?? '').split(';')) {
    const [key = '', value = ''] = pair.trim().split('=', 2);
    if (key === name) return SECRET.test(value) ? value : undefined;
  }
  return undefined;
}

/** @param endsAt wall clock, ms. @param now wall clock, ms */
export function sessionCookie(request: FastifyRequest, secret: string, endsAt: number, now: number): string {
  return cookie(request, secret, Math.max(0, Math.floor((endsAt - now) / 1000)));
}

/** Takes it away. */
export const noCookie = (request: FastifyRequest): string => cookie(request, '', 0);

function cookie(request: FastifyRequest, value: string, maxAge_s: number): string {
  const parts = [
    `${nameFor(request)}=${value}`,
    'Path=/',
    `Max-Age=${maxAge_s}`,
    'HttpOnly',
    'SameSite=Strict',
  ];
  return [...parts, ...(isSecure(request) ? ['Secure'] : [])].join('; ');
}
