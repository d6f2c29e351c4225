/** Tells a web server: POST, JSON or CAP 1.2, with a key by which it can drop a repeat, signed where a secret is shared. */
import { webhookProblem } from '../core/alarms/webhook-url.js';
import { DeliveryError } from './delivery-error.js';
import { oneLine } from './one-line.js';
import type { OutboxMessage, Timer, Way } from './ports.js';
import { retryAfter_ms } from './retry-after.js';
import { SIGNATURE_HEADER, secretProblem, signatureOf } from './signature.js';

export interface WebhookLimits {
  /** For the whole exchange, ms. */
  readonly answer_ms: number;
  /** Of the body that is sent, bytes. */
  readonly body_bytes: number;
  /** Of the answer that is read for the reason of a refusal, bytes. */
  readonly answer_bytes: number;
}

export const WEBHOOK_LIMITS: WebhookLimits = { answer_ms: 10_000, body_bytes: 65_536, answer_bytes: 1024 };

export interface WebhookOptions {
  /** The secret shared with whoever receives at a URL. */
  readonly secretOf?: (to: string) => string | undefined;
}

/** Besides 5xx: timeout (408), too early (425, RFC 8470), too many requests (429, RFC 6585). */
export const MAY_PASS: readonly number[] = [408, 425, 429];

/** A string of RFC 8941 section 3.3.3: printable ASCII in quotes. */
function quoted(key: string): string {
  return `"${key.replace(/["\\]/g, '\\$&')}"`;
}

function requireSendable(message: OutboxMessage, limits: WebhookLimits): void {
  const refuse = (reason: string): never => {
    throw new DeliveryError('BAD_REQUEST', `webhook: ${reason}`, { permanent: true });
  };
  const problem = webhookProblem(message.to);
  if (problem !== undefined) refuse(problem);
  if (!/^[\x20-\x7e]{1,500}$/.test(message.key))
    refuse('expected a key of 1 to 500 printable ASCII characters');
  const bytes = Buffer.byteLength(message.body);
  if (!(bytes <= limits.body_bytes))
    refuse(`expected a body of at most ${limits.body_bytes} bytes, got ${bytes}`);
}

/** The beginning of an answer, as text: the pieces that hold its first bytes; the rest is not waited for. */
export async function beginningOf(response: Response, most_bytes: number): Promise<string> {
  if (!response.body) return '';
  const chunks: Uint8Array[] = [];
  let bytes = 0;
  const reader = response.body.getReader();
  try {
    while (bytes < most_bytes) {
      const { done, value } = await reader.read();
      if (done) break;
      chunks.push(value);
      bytes += value.length;
    }
  } finally {
    await reader.cancel().catch(() => undefined);
  }
  return new TextDecoder().decode(Buffer.concat(chunks));
}

/** The origin only: paths and queries of webhooks often hold a secret. */
const originOf = (url: string): string => new URL(url).origin;

/** JSON never begins with "<" [RFC 8259 2], an XML document does. */
const contentTypeOf = (body: string): string =>
  body.startsWith('<') ? 'application/cap+xml' : 'application/json';

/** New at each attempt, as its time is. */
function signatureHeader(message: OutboxMessage, { secretOf }: WebhookOptions, now: number) {
  const secret = secretOf?.(message.to);
  if (secret === undefined) return {};
  const problem = secretProblem(secret);
  if (problem !== undefined)
    throw new DeliveryError('BAD_REQUEST', `webhook ${originOf(message.to)}: ${problem}`, {
      permanent: true,
    });
  return { [SIGNATURE_HEADER]: signatureOf(secret, message.body, now) };
}

async function refusalOf(response: Response, to: string, limits: WebhookLimits, now: number): Promise<Error> {
  const { status } = response;
  const said = await beginningOf(response, limits.answer_bytes).catch(() => '');
  const redirect = status >= 300 && status < 400 ? ' (redirects are not followed)' : '';
  const reason = `webhook ${originOf(to)}: expected status 2xx, got ${status}${redirect}`;
  const mayPass = status >= 500 || MAY_PASS.includes(status);
  return new DeliveryError(
    mayPass ? 'RECEIVER_UNAVAILABLE' : 'BAD_REQUEST',
    said === '' ? reason : `${reason}: ${oneLine(said, limits.answer_bytes)}`,
    {
      permanent: !mayPass,
      retryAfter_ms: mayPass ? retryAfter_ms(response.headers.get('retry-after'), now) : undefined,
    },
  );
}

/** fetch says "fetch failed" and keeps the reason in the cause. */
export function networkReason(error: unknown): string {
  const cause = error instanceof Error && error.cause instanceof Error ? error.cause : error;
  const code = (cause as { code?: unknown } | undefined)?.code;
  if (typeof code === 'string') return code;
  return cause instanceof Error ? cause.message : String(cause);
}

/**
 * The way `webhook`: `to` is an http or https URL, `body` the text to post: JSON, or the XML of CAP 1.2.
 *
 * Delivered is a status 2xx. Status 408, 425, 429 and 5xx, no connection and no answer in time may pass; every
 * other status is a refusal, redirects too: who is told of an alarm is for the operator to say, not for a server.
 * Rejects with a DeliveryError.
 *
 * @param options.secretOf what is shared with the receiver at a URL: the request is then signed as signature.ts
 *   says; undefined for a receiver without a secret. A secret that is too short sends nothing: a message without
 *   the signature that its receiver counts on is one that it drops.
 */
export function createWebhook(
  timer: Timer,
  limits: WebhookLimits = WEBHOOK_LIMITS,
  options: WebhookOptions = {},
): Way {
  async function send(message: OutboxMessage): Promise<void> {
    requireSendable(message, limits);
    const signature = signatureHeader(message, options, timer.now());
    const abort = new AbortController();
    const cancel = timer.after(limits.answer_ms, () => abort.abort());
    try {
      const response = await fetch(message.to, {
        method: 'POST',
        headers: {
          'content-type': contentTypeOf(message.body),
          'idempotency-key': quoted(message.key),
          'user-agent': 'sandlarder',
          ...signature,
        },
        body: message.body,
        redirect: 'manual',
        signal: abort.signal,
      });
      if (!response.ok) throw await refusalOf(response, message.to, limits, timer.now());
      await response.body?.cancel().catch(() => undefined);
    } catch (error) {
      if (error instanceof DeliveryError) throw error;
      const reason = abort.signal.aborted
        ? `expected an answer within ${limits.answer_ms} ms, got none`
        : `no connection: ${oneLine(networkReason(error), 200)}`;
      throw new DeliveryError('RECEIVER_UNAVAILABLE', `webhook ${originOf(message.to)}: ${reason}`, {
        cause: error,
      });
    } finally {
      cancel();
    }
  }
  return { name: 'webhook', send };
}
