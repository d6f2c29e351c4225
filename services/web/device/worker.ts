/// <reference lib="webworker" />
/**
 * Keeps the built page on the device, so that it opens without network. Answers of the service are none of its business:
 * what was seen of them is kept by `api/seen.ts`, with its age.
 */
import { cacheName, isDocument, isKept } from './kept-files.js';

declare const self: ServiceWorkerGlobalScope;

/** Written in when the page is built: what the built files come to, and their addresses. */
declare const BUILT_VERSION: string;
declare const BUILT_FILES: readonly string[];

const CACHE = cacheName(BUILT_VERSION);

/** The one document that is shown at every address of the page. */
const DOCUMENT = '/beds';

self.addEventListener('install', (event) => {
  event.waitUntil(keepAll());
});

self.addEventListener('activate', (event) => {
  event.waitUntil(dropOlder().then(() => self.clients.claim()));
});

self.addEventListener('message', ({ data }) => {
  if (data === 'take-over') void self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  if (request.mode === 'navigate') {
    if (isDocument(url.pathname)) event.respondWith(keptOr(DOCUMENT, request));
  } else if (isKept(url.pathname)) event.respondWith(keptOr(url.pathname, request));
});

/** All or nothing: a page of which a part is missing is not taken. Names that stay are asked for past the browser's own cache. */
async function keepAll(): Promise<void> {
  const cache = await caches.open(CACHE);
  const asked = BUILT_FILES.map((path) =>
    path.startsWith('/assets/') ? new Request(path) : new Request(path, { cache: 'no-cache' }),
  );
  await cache.addAll(asked);
}

async function dropOlder(): Promise<void> {
  for (const name of await caches.keys())
    if (name !== CACHE && name.startsWith(cacheName(''))) await caches.delete(name);
}

/** What is not kept yet, as another language's words, is kept once it was fetched. */
async function keptOr(path: string, request: Request): Promise<Response> {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(path);
  if (kept) return kept;
  const response = await fetch(request);
  if (response.ok && path.startsWith('/assets/')) await cache.put(path, response.clone());
  return response;
}
