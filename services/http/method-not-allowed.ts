/** 405 with Allow for every method that an address does not take [RFC 9110 15.5.6]. */
import type { FastifyInstance } from 'fastify';
import { sendProblem } from './problem.js';

/**
 * Call before the routes are added; call the function returned after the last. It adds the missing methods of
 * each address to the router itself, so that both always agree on what an address is.
 */
export function collectMethods(app: FastifyInstance): () => void {
  const methodsOf = new Map<string, Set<string>>();
  app.addHook('onRoute', ({ url, method, config }) => {
    if (config?.refuses) return;
    const methods = methodsOf.get(url) ?? new Set();
    for (const each of [method].flat()) methods.add(each);
    methodsOf.set(url, methods);
  });
  return () => {
    for (const [url, methods] of [...methodsOf]) refuseOthers(app, url, [...methods].sort());
  };
}

function refuseOthers(app: FastifyInstance, url: string, allowed: readonly string[]): void {
  const allow = allowed.join(', ');
  app.route({
    url,
    method: app.supportedMethods.filter((method) => !allowed.includes(method)),
    schema: { hide: true },
    config: { refuses: true },
    onRequest: async (request, reply) =>
      sendProblem(request, reply.header('allow', allow), {
        status: 405,
        detail: `method must be one of ${allow}, got ${request.method}`,
      }),
    handler: () => undefined,
  });
}
