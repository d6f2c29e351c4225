/** The Fastify instance as the routes see it: typed by the zod schemas of each route. */
import type { IncomingMessage, Server, ServerResponse } from 'node:http';
import type { FastifyBaseLogger, FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { Reach } from './access/actions.js';
import type { Asker } from './ports-access.js';

export type HttpApp = FastifyInstance<
  Server,
  IncomingMessage,
  ServerResponse,
  FastifyBaseLogger,
  ZodTypeProvider
>;

declare module 'fastify' {
  interface FastifyInstance {
    /** Whether it may listen to other machines: passwords travel under TLS, or somebody chose otherwise. */
    readonly mayListenWider: boolean;
  }
  interface FastifyContextConfig {
    /** From the table of actions; undefined of an address that is none. */
    reach?: Reach;
    /** Answers a method that an address does not take, and nothing else. */
    refuses?: boolean;
  }
  interface FastifyRequest {
    /** Who asks; undefined where nobody showed it and nobody has to. */
    asker: Asker | undefined;
    /** Number of the change in the audit trail; null of what changes nothing. */
    began: number | null;
    /** Whether whoever asked may still ask. */
    stillHolds: () => boolean;
  }
}
