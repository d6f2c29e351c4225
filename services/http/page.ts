/** The page: files that were built beforehand, and one document at every address of its own. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import fastifyStatic from '@fastify/static';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { HttpApp } from './http-app.js';

/** What the page's own router shows; `/` is in `routes/root.ts`. */
const ADDRESSES = ['/beds', '/alarms', '/jobs', '/bench', '/trials', '/settings', '/sign-in'].flatMap(
  (address) => [address, `${address}/*`],
);

/** Names of built files hold a hash of what is in them: they never change. */
const HASHED = /[\\/]assets[\\/]/;

/** Of the document and of files whose name stays: asked about each time. */
const ASK_AGAIN = 'no-cache';

/** @param directory folder of the built page, with `index.html` */
export async function addPage(app: HttpApp, directory: string): Promise<void> {
  await app.register(fastifyStatic, {
    root: directory,
    wildcard: false,
    index: false,
    preCompressed: true,
    cacheControl: false,
    setHeaders: (reply, path) => {
      reply.setHeader('cache-control', HASHED.test(path) ? 'public, max-age=31536000, immutable' : ASK_AGAIN);
    },
  });
  for (const address of ADDRESSES)
    app.get(address, { schema: { hide: true } }, (_request, reply) => sendPage(reply));
}

/** The document of the page. */
export const sendPage = (reply: FastifyReply): FastifyReply => reply.sendFile('index.html');

/** Addresses of machines: what they do not have is told them as problem details. */
const OF_MACHINES = /^\/(?:api|metrics|answer)(?:[/?]|$)/;

/** Whether somebody with a browser came to an address that is none. */
export const isLostReader = ({ is404, method, url, headers }: FastifyRequest): boolean =>
  is404 &&
  (method === 'GET' || method === 'HEAD') &&
  headers.accept?.includes('text/html') === true &&
  !OF_MACHINES.test(url);

/** The document at an address that is none: it says so itself. Whole each time, or what a browser kept would be left blank. */
export const sendPageMissing = (reply: FastifyReply): FastifyReply =>
  reply
    .code(404)
    .sendFile('index.html', { etag: false, lastModified: false, acceptRanges: false, cacheControl: false });

/** The folder of the built page beside the built service; undefined where it was not built. */
export function builtPage(directory: string): string | undefined {
  return existsSync(join(directory, 'index.html')) ? directory : undefined;
}
