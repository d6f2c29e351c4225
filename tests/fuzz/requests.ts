/** Requests by chance at every address of a real service, made from its own OpenAPI document: what it does not say it does not do. */
import { Chance } from './chance.js';
import { type Asked, Outcomes, type Tried, Unsound } from './part.js';
import { type Schema, someValue } from './values.js';

interface Operation {
  readonly parameters?: readonly { name: string; in: string; required?: boolean; schema: Schema }[];
  readonly requestBody?: { readonly content: Readonly<Record<string, { readonly schema?: Schema }>> };
  readonly responses: Readonly<Record<string, unknown>>;
}

interface ApiDocument {
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
}

interface Address {
  readonly method: string;
  readonly path: string;
  readonly operation: Operation;
}

/** Never ends by itself. */
const ENDLESS = ['/api/stream'];
/** Requests at the same time; a request that takes longer than this is as good as none, ms. */
const TOGETHER = 8;
const LONGEST_ms = 60_000;
/** Answered before a route is asked: too many, too long, another type; and where a handler took too long. */
const ANYWHERE = [400, 404, 408, 413, 414, 415, 421, 429, 503];

/** @throws Unsound for an answer that the document does not have, or a failure of the service's own */
export async function tryRequests({ cases, seed }: Asked, http: string): Promise<Tried> {
  const chance = new Chance(seed);
  const outcomes = new Outcomes();
  const document = (await (await fetch(`${http}/api/openapi.json`)).json()) as ApiDocument;
  const addresses = Object.entries(document.paths).flatMap(([path, item]) =>
    Object.entries(item).map(
      ([method, operation]): Address => ({ method: method.toUpperCase(), path, operation }),
    ),
  );
  const asked = addresses.filter(({ path }) => !ENDLESS.includes(path));
  for (let number = 0; number < cases; number += TOGETHER) {
    const now = Array.from({ length: Math.min(TOGETHER, cases - number) }, (_, at) => {
      const address = asked[(number + at) % asked.length] as Address;
      return { address, ...requestOf(chance, address, document) };
    });
    const name = `requests: seed ${seed}, case ${number} and on`;
    for (const outcome of await Promise.all(now.map((one) => outcomeOf(http, one, name))))
      outcomes.add(outcome);
  }
  return { cases, outcomes: outcomes.counts };
}

interface Request {
  readonly address: Address;
  readonly target: string;
  readonly body?: string;
  readonly type?: string;
}

function requestOf(chance: Chance, { path, operation }: Address, document: ApiDocument) {
  const values = (where: string) =>
    (operation.parameters ?? [])
      .filter((one) => one.in === where && (one.in === 'path' || one.required || chance.below(2) === 0))
      .map(({ name, schema }) => [name, String(shown(someValue(chance, schema, document)))] as const);
  const filled = values('path').reduce(
    (target, [name, value]) =>
      target.replace(`{${name}}`, encodeURIComponent(wellFormed(value).slice(0, 200)) || '-'),
    path,
  );
  const query = new URLSearchParams(
    values('query').map(([name, value]): [string, string] => [name, value.slice(0, 400)]),
  ).toString();
  const target = query ? `${filled}?${query}` : filled;
  const [type, content] = Object.entries(operation.requestBody?.content ?? {})[0] ?? [];
  if (type === undefined) return { target };
  const body = JSON.stringify(someValue(chance, content?.schema ?? {}, document)) ?? 'null';
  return {
    target,
    type: chance.below(30) === 0 ? 'text/plain' : type,
    body: chance.below(30) === 0 ? body.slice(1) : body,
  };
}

const shown = (value: unknown): unknown => (typeof value === 'object' ? JSON.stringify(value) : value);
const wellFormed = (value: string): string => Buffer.from(value, 'utf8').toString('utf8');

async function outcomeOf(
  http: string,
  { address, target, body, type }: Request,
  name: string,
): Promise<string> {
  const { method, path, operation } = address;
  const asked = `${name}: ${method} ${target} ${body ?? ''}`.slice(0, 2000);
  const init = {
    method,
    signal: AbortSignal.timeout(LONGEST_ms),
    ...(body !== undefined && { body, headers: { 'content-type': type ?? '' } }),
  };
  let response: Response;
  try {
    response = await fetch(`${http}${target}`, init);
    await checkBody(response, asked);
  } catch (error) {
    if (error instanceof Unsound) throw error;
    throw new Unsound(`${asked}: expected an answer, got ${String((error as Error).cause ?? error)}`);
  }
  const { status } = response;
  const isSaid = String(status) in operation.responses || ANYWHERE.includes(status);
  if (status === 500 || !isSaid)
    throw new Unsound(`${asked}: expected an answer that ${method} ${path} is described with, got ${status}`);
  return status < 400 ? 'answered' : `refused with ${status}`;
}

/** A refusal is a problem in JSON [RFC 9457] with a sentence of its own. */
async function checkBody(response: Response, asked: string): Promise<void> {
  const text = await response.text();
  if (response.status < 400) return;
  const type = response.headers.get('content-type') ?? '';
  const { detail } = type.startsWith('application/problem+json')
    ? (JSON.parse(text) as { detail?: unknown })
    : {};
  const isHealth = response.status === 503 && asked.includes('/api/health');
  if (!isHealth && !(typeof detail === 'string' && detail.length > 0))
    throw new Unsound(
      `${asked}: expected a problem with a sentence, got ${response.status} ${type} ${text.slice(0, 300)}`,
    );
}
