/** Headers that every answer has: what a browser may do with it. */
import helmet from '@fastify/helmet';
import type { HttpApp } from './http-app.js';

/** Half a year, s: judgement. Only of an answer that came by TLS. */
const HTTPS_FOR_s = 180 * 86_400;

/**
 * Nothing but what comes from here, no frame around it, no script or style in the document itself (CSP Level 3). Pages
 * without scripts, which hold their own style, say so in their own routes.
 */
const POLICY = {
  'default-src': ["'self'"],
  'img-src': ["'self'", 'data:', 'blob:'],
  'object-src': ["'none'"],
  'base-uri': ["'none'"],
  'form-action': ["'self'"],
  'frame-ancestors': ["'none'"],
};

/** @param tls whether the service itself speaks it */
export async function addHeaders(app: HttpApp, tls: boolean): Promise<void> {
  await app.register(helmet, {
    contentSecurityPolicy: { useDefaults: false, directives: POLICY },
    frameguard: { action: 'deny' },
    referrerPolicy: { policy: 'no-referrer' },
    hsts: tls ? { maxAge: HTTPS_FOR_s, includeSubDomains: false } : false,
  });
  app.addHook('onSend', async (_request, reply) => {
    // What is not answered by a file of the page is of this moment.
    if (!reply.hasHeader('cache-control')) reply.header('cache-control', 'no-store');
  });
}
