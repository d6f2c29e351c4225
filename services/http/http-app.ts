/** The Fastify instance as the routes see it: typed by the zod schemas of each route. */
import type { IncomingMessage, Server, ServerResponse } from 'node:http';
import type { FastifyBaseLogger, FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';

export type HttpApp = FastifyInstance<
  Server,
  IncomingMessage,
  ServerResponse,
  FastifyBaseLogger,
  ZodTypeProvider
>;

declare module 'fastify' {
  interface FastifyInstance {
    /** Whether everything but the health address asks for user and password. */
    readonly asksForCredentials: boolean;
  }
}
