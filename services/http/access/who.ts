/** Who asks, by what a request shows: a session's cookie, a machine's token, or user and password of the environment. */
import type { FastifyRequest } from 'fastify';
import type { Credentials } from '../credentials.js';
import { credentialsJudge, readBasic } from '../credentials.js';
import type { AccessPorts, Asker } from '../ports-access.js';
import { sessionSecret } from './cookie.js';

const BEARER = /^Bearer +([A-Za-z0-9_-]{20,100})$/i;

/** By which a machine that knows Basic alone sends its token as the password. */
const TOKEN_USER = 'token';

/** Of an open service: whoever reaches it. */
export const ANYONE: Asker = Object.freeze({
  ...{ kind: 'anyone', name: 'anyone', shown: '', role: 'steward', beds: [], session: null },
});

export type Who = (request: FastifyRequest) => Asker | undefined;

/** @param credentials of the environment, where there are some */
export function whoAsks(access: AccessPorts, credentials: Credentials | undefined): Who {
  const isRight = credentials && credentialsJudge(credentials);
  const shared: Asker | undefined = credentials && {
    ...{ kind: 'shared', name: credentials.user, shown: credentials.user, role: 'steward', beds: [] },
    session: null,
  };
  return (request) => {
    const { authorization } = request.headers;
    if (authorization !== undefined) {
      const token = tokenIn(authorization);
      if (token !== undefined) return access.ofToken(token);
      return isRight?.(authorization) ? shared : undefined;
    }
    const secret = sessionSecret(request);
    return secret === undefined ? undefined : access.ofSession(secret);
  };
}

function tokenIn(authorization: string): string | undefined {
  const [, token] = BEARER.exec(authorization) ?? [];
  if (token !== undefined) return token;
  const basic = readBasic(authorization);
  return basic?.user === TOKEN_USER ? basic.password : undefined;
}
