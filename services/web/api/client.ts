/** Asks the service. Whatever goes wrong is a `Refusal` of the service or a `NoNetwork`. */
import { changes } from '../parts/changes.js';
import { language } from '../words/language.js';
import { plainly } from '../words/service-english.js';
import { takeAhead } from './ahead.js';
import { answered, notAnswered } from './network.js';

/** One thing that the service found wrong with a body or an address (RFC 9457, `errors`). */
export interface Wrong {
  /** JSON pointer into the body: `#/roots/count`. */
  readonly pointer?: string;
  readonly parameter?: string;
  readonly detail: string;
}

/** The service answered, and did not do it. Its words are fit to be shown. */
export class Refusal extends Error {
  override readonly name = 'Refusal';
  constructor(
    readonly status: number,
    detail: string,
    readonly errors: readonly Wrong[] = [],
    readonly code?: string,
  ) {
    super(detail);
  }
}

/** Nobody answered. */
export class NoNetwork extends Error {
  override readonly name = 'NoNetwork';
}

/** Nobody answered, or the service is there and cannot just now. */
export const isForLater = (error: unknown): boolean =>
  error instanceof NoNetwork ||
  (error instanceof Refusal && (error.status >= 500 || [401, 408, 421, 429].includes(error.status)));

/** Told when the service refused something because of who asks. */
export const unknownHere = changes<void>();

/** Longest wait for an answer; plans and coverage take some seconds. */
const WAIT_ms = 40_000;

export interface Asked {
  readonly method?: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
  /** Sent as JSON. */
  readonly body?: unknown;
  /** Sent as it is, with its own type. */
  readonly blob?: Blob;
  readonly headers?: Readonly<Record<string, string>>;
  readonly signal?: AbortSignal | undefined;
}

/**
 * Asks, and gives the answer's JSON (undefined where it has no body).
 *
 * @throws Refusal, NoNetwork
 */
export async function ask<Answer>(path: string, asked: Asked = {}): Promise<Answer> {
  const early = asked.method === undefined ? takeAhead(path) : undefined;
  if (early) return (await early) as Answer;
  const { answer } = await askWhole<Answer>(path, asked);
  return answer;
}

/** As `ask`, with the headers of the answer: `link` of a next page, `etag`. */
export async function askWhole<Answer>(
  path: string,
  asked: Asked = {},
): Promise<{ readonly answer: Answer; readonly headers: Headers }> {
  const response = await reach(path, asked);
  const text = await textOf(response, asked.signal);
  const value: unknown = isJson(response) && text !== '' ? JSON.parse(text) : undefined;
  if (response.status === 401 || response.status === 403) unknownHere.tell();
  if (!response.ok) throw refusalOf(response, value);
  return { answer: value as Answer, headers: response.headers };
}

async function reach(
  path: string,
  { method = 'GET', body, blob, headers, signal }: Asked,
): Promise<Response> {
  const ends = AbortSignal.timeout?.(WAIT_ms);
  try {
    const response = await fetch(path, {
      method,
      headers: {
        accept: 'application/json',
        'accept-language': language(),
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        ...headers,
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      ...(blob === undefined ? {} : { body: blob }),
      ...((signal ?? ends) ? { signal: (signal ?? ends) as AbortSignal } : {}),
    });
    answered();
    return response;
  } catch (error) {
    if (signal?.aborted) throw error;
    notAnswered();
    throw new NoNetwork(String(error));
  }
}

/** An answer that breaks off is none: half of it would pass for an answer without a body. */
async function textOf(response: Response, signal: AbortSignal | undefined): Promise<string> {
  try {
    return await response.text();
  } catch (error) {
    if (signal?.aborted) throw error;
    notAnswered();
    throw new NoNetwork(String(error));
  }
}

const isJson = (response: Response): boolean => /\bjson\b/.test(response.headers.get('content-type') ?? '');

function refusalOf(response: Response, value: unknown): Refusal {
  const problem = (value ?? {}) as { detail?: string; errors?: Wrong[]; code?: string };
  return new Refusal(
    response.status,
    problem.detail === undefined ? `${response.status} ${response.statusText}` : plainly(problem.detail),
    problem.errors?.map((wrong) => ({ ...wrong, detail: plainly(wrong.detail) })),
    problem.code,
  );
}
