/** Notes each change before it begins, and what became of it: nothing is changed that is not in the trail. */
import type { FastifyInstance, FastifyRequest } from 'fastify';
import type { AccessPorts, Asker, DeedView } from '../ports-access.js';
import { isChange } from './actions.js';

/** How somebody showed who they are, in a word. */
const HOW: Readonly<Record<Asker['kind'], string>> = {
  anyone: 'nobody is asked',
  shared: 'password of the service',
  person: 'session',
  machine: 'token',
};

/** What a request does, as the trail has it. The query is left out: it may hold a secret. */
export function deedOf(request: FastifyRequest): DeedView {
  const { asker, method, url, ip, routeOptions } = request;
  const path = url.split('?', 1)[0] ?? '';
  const { operationId } = (routeOptions.schema ?? {}) as { operationId?: string };
  return {
    who: asker?.name ?? (path === '/answer' ? 'whoever has the link' : 'a stranger'),
    how: asker ? HOW[asker.kind] : path === '/answer' ? 'signed link' : 'none',
    address: ip,
    did: operationId ?? `${method} ${routeOptions.url ?? ''}`,
    what: `${method} ${path}`,
  };
}

/** Call before the routes are added. */
export function addAudit(app: FastifyInstance, access: AccessPorts): void {
  app.addHook('preHandler', async (request) => {
    if (!isChange(request.method, request.routeOptions.url ?? '')) return;
    request.began = access.began(deedOf(request));
  });
  app.addHook('onResponse', async (request, reply) => {
    if (request.began === null) return;
    const { statusCode } = reply;
    access.ended(request.began, deedOf(request), `${statusCode < 400 ? 'done' : 'not done'}: ${statusCode}`);
  });
}
