/** What a worker of a centre answers for itself: how the centre stands, and which partition a site is in. Each partition answers all else. */
import fastify, { type FastifyInstance } from 'fastify';
import { serializerCompiler, type ZodTypeProvider } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { idSchema } from '../core/model/id.js';
import { addNotFound, answerClientError, errorHandler, type ReportError } from './error-handler.js';
import { addHeaders } from './headers.js';
import type { HttpApp } from './http-app.js';
import { HTTP_LIMITS } from './limits.js';
import { sendProblem } from './problem.js';
import { validatorCompiler } from './validator.js';

export interface CentreHealth {
  readonly status: 'ok' | 'degraded';
  readonly problems: readonly string[];
  readonly accepting: boolean;
  readonly version: string;
  readonly group: string;
  readonly partitions: number;
  /** Name of the worker that answers. */
  readonly worker: string;
  /** All workers that live, with what each holds. */
  readonly workers: readonly {
    readonly name: string;
    readonly url: string;
    readonly held: readonly { readonly partition: string; readonly url: string }[];
  }[];
}

export interface PlaceOfSite {
  readonly site: string;
  readonly partition: string;
  /** Where it is answered for now; null while nobody holds the partition. */
  readonly url: string | null;
}

export interface CentrePorts {
  health(): CentreHealth;
  placeOf(site: string): PlaceOfSite;
}

export interface CentreOptions {
  readonly tls?: { readonly cert: string; readonly key: string } | undefined;
  readonly mayListenWider: boolean;
  readonly report: ReportError;
}

const siteSchema = { params: z.strictObject({ site: idSchema }) };

/** Nothing that it says is of anybody's roots: it asks nobody who they are. */
export async function buildCentreApp(
  ports: CentrePorts,
  { tls, mayListenWider, report }: CentreOptions,
): Promise<FastifyInstance> {
  const app: HttpApp = fastify({
    // Its types know one kind of server at a time.
    ...((tls ? { https: tls } : {}) as object),
    bodyLimit: HTTP_LIMITS.body_bytes,
    requestTimeout: HTTP_LIMITS.requestTimeout_ms,
    connectionTimeout: HTTP_LIMITS.connectionTimeout_ms,
    keepAliveTimeout: HTTP_LIMITS.keepAliveTimeout_ms,
    forceCloseConnections: 'idle',
    http: { headersTimeout: HTTP_LIMITS.headersTimeout_ms, maxHeaderSize: HTTP_LIMITS.headers_bytes },
    clientErrorHandler: answerClientError,
  }).withTypeProvider<ZodTypeProvider>();
  app.server.maxConnections = HTTP_LIMITS.connections;
  app.decorate('mayListenWider', mayListenWider);
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  app.setErrorHandler(errorHandler(report));
  await addHeaders(app, tls !== undefined);
  addNotFound(app);
  app.get('/', (_request, reply) => reply.redirect('/api/health'));
  app.get('/api/health', (_request, reply) => {
    const health = ports.health();
    reply.code(health.accepting ? 200 : 503).send(health);
  });
  app.get('/api/sites/:site', { schema: siteSchema }, ({ params: { site }, hostname }, reply) =>
    reply.send(seenFrom(ports.placeOf(site), hostname)),
  );
  app.get('/sites/:site', { schema: siteSchema }, (request, reply) => {
    const { url, partition } = seenFrom(ports.placeOf(request.params.site), request.hostname);
    if (url !== null) return reply.redirect(`${url}/`, 307);
    const detail = `partition ${partition} is held by no worker just now: ask again in some seconds`;
    return sendProblem(request, reply, { status: 503, code: 'STORE_UNAVAILABLE', detail });
  });
  await app.ready();
  return app;
}

/** What listens on every address of the machine is reached under the name by which this was. */
function seenFrom(place: PlaceOfSite, hostname: string): PlaceOfSite {
  if (place.url === null) return place;
  const url = new URL(place.url);
  if (url.hostname === '0.0.0.0' || url.hostname === '[::]') url.hostname = hostname.replace(/:\d+$/, '');
  return { ...place, url: url.origin };
}
