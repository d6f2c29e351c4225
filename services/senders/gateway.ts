/** Sends a short message through any gateway that takes one by HTTP, as its operator's settings say. */
import { z } from 'zod';
import { DeliveryError } from './delivery-error.js';
import { answerProblem, asksBody, fits, secretsOf, statusIsGood, withoutSecrets } from './gateway-answer.js';
import { type GatewaySettings, readGatewaySettings } from './gateway-settings.js';
import { fillJson, fillText, fillUrl, type Json, type TemplateValues } from './gateway-template.js';
import { numberProblem } from './gsm/number.js';
import { splitIntoParts } from './gsm/segments.js';
import { oneLine } from './one-line.js';
import type { OutboxMessage, Timer, Way } from './ports.js';
import { retryAfter_ms } from './retry-after.js';
import { beginningOf, MAY_PASS, networkReason } from './webhook.js';

export interface GatewayLimits {
  /** For the whole exchange, ms. */
  readonly answer_ms: number;
  /** Of the message's body, bytes. */
  readonly body_bytes: number;
  /** Of the answer that is read, bytes. */
  readonly answer_bytes: number;
  /** Of the answer in a reason, characters. */
  readonly shown: number;
}

/** Longer to answer than a webhook: some wait for the network's word. */
export const GATEWAY_LIMITS: GatewayLimits = {
  answer_ms: 30_000,
  body_bytes: 65_536,
  answer_bytes: 65_536,
  shown: 300,
};

const bodySchema = z.object({ text: z.string().min(1).optional(), line: z.string().min(1).optional() });

const refusal = (reason: string, cause?: unknown): DeliveryError =>
  new DeliveryError('BAD_REQUEST', `sms: ${reason}`, { permanent: true, cause });

function textOf({ body }: OutboxMessage, limits: GatewayLimits): string {
  const bytes = Buffer.byteLength(body);
  if (!(bytes <= limits.body_bytes))
    throw refusal(`expected a body of at most ${limits.body_bytes} bytes, got ${bytes}`);
  try {
    const { text, line } = bodySchema.parse(JSON.parse(body));
    // Half of a surrogate pair cannot be written in a URL: Buffer puts U+FFFD for it.
    if (text ?? line) return Buffer.from(text ?? line ?? '').toString();
  } catch (error) {
    throw refusal('expected the body of a message, got another', error);
  }
  throw refusal('expected a body with a text or a line, got neither');
}

/** Into how many short messages the network splits the text; more than a header can count are refused. */
function partsOf(text: string): string {
  try {
    return String(splitIntoParts(text, 0).length);
  } catch (error) {
    throw refusal('expected a text of at most 255 short messages, got a longer one', error);
  }
}

/** The number is not repeated in a reason. */
function valuesOf(message: OutboxMessage, from: string, limits: GatewayLimits): TemplateValues {
  const { to, key } = message;
  const problem = numberProblem(to);
  if (problem !== undefined) throw refusal(problem);
  if (!/^[\x20-\x7e]{1,500}$/.test(key))
    throw refusal('expected a key of 1 to 500 printable ASCII characters');
  const text = textOf(message, limits);
  return { to, digits: to.slice(1), text, key, from, parts: partsOf(text) };
}

const CONTENT_TYPES = {
  json: 'application/json',
  form: 'application/x-www-form-urlencoded',
  text: 'text/plain; charset=utf-8',
} as const;

function encodedBody({ contentType, body }: GatewaySettings, values: TemplateValues): string {
  if (contentType === 'text') return fillText(String(body), values);
  const filled = fillJson(body as Json, values);
  if (contentType === 'json') return JSON.stringify(filled);
  return new URLSearchParams(
    Object.entries(filled as object).map(([name, value]): [string, string] => [name, String(value)]),
  ).toString();
}

function requestOf(settings: GatewaySettings, values: TemplateValues): RequestInit {
  const { method, contentType } = settings;
  const headers = new Headers({ 'user-agent': 'sandlarder' });
  if (contentType) headers.set('content-type', CONTENT_TYPES[contentType]);
  for (const [name, value] of Object.entries(settings.headers)) headers.set(name, fillText(value, values));
  return { method, headers, ...(contentType ? { body: encodedBody(settings, values) } : {}) };
}

class Gateway implements Way {
  readonly name = 'sms';
  readonly #settings: GatewaySettings;
  readonly #timer: Timer;
  readonly #limits: GatewayLimits;
  readonly #secrets: readonly string[];
  readonly #origin: string;

  constructor(settings: GatewaySettings, timer: Timer, limits: GatewayLimits) {
    this.#settings = settings;
    this.#timer = timer;
    this.#limits = limits;
    this.#secrets = secretsOf(settings);
    this.#origin = new URL(settings.url.replace(/[/?#]*<<.*/s, '')).origin;
  }

  async send(message: OutboxMessage): Promise<void> {
    const values = valuesOf(message, this.#settings.from ?? '', this.#limits);
    const abort = new AbortController();
    const cancel = this.#timer.after(this.#limits.answer_ms, () => abort.abort());
    try {
      await this.#exchange(values, abort.signal);
    } catch (error) {
      if (error instanceof DeliveryError) throw error;
      const reason = abort.signal.aborted
        ? `expected an answer within ${this.#limits.answer_ms} ms, got none`
        : `no connection: ${oneLine(this.#hide(networkReason(error), values), 200)}`;
      throw new DeliveryError('RECEIVER_UNAVAILABLE', `sms ${this.#origin}: ${reason}`);
    } finally {
      cancel();
    }
  }

  async #exchange(values: TemplateValues, signal: AbortSignal): Promise<void> {
    const { url, success } = this.#settings;
    const request = requestOf(this.#settings, values);
    const response = await fetch(fillUrl(url, values), { ...request, redirect: 'manual', signal });
    if (!statusIsGood(success, response.status)) {
      const said = await beginningOf(response, this.#limits.answer_bytes).catch(() => '');
      throw this.#statusRefusal(response, said, values);
    }
    if (!asksBody(success)) {
      await response.body?.cancel().catch(() => undefined);
      return;
    }
    const said = await beginningOf(response, this.#limits.answer_bytes);
    const problem = answerProblem(success, said, (text) => this.#hide(text, values));
    if (problem !== undefined) throw this.#refusal(problem, said, values, false, undefined);
  }

  #statusRefusal({ status, headers }: Response, said: string, values: TemplateValues): DeliveryError {
    const redirect = status >= 300 && status < 400 ? ' (redirects are not followed)' : '';
    const expected = this.#settings.success.status?.join(' or ') ?? '2xx';
    const reason = `expected status ${expected}, got ${status}${redirect}`;
    const mayPass = status >= 500 || MAY_PASS.includes(status);
    const asked_ms = retryAfter_ms(headers.get('retry-after'), this.#timer.now());
    return this.#refusal(reason, said, values, mayPass, asked_ms);
  }

  #refusal(
    problem: string,
    said: string,
    values: TemplateValues,
    mayPass: boolean,
    asked_ms: number | undefined,
  ): DeliveryError {
    const { tryAgainIf } = this.#settings;
    const passing = mayPass || (tryAgainIf !== undefined && fits(tryAgainIf, said));
    const shown = oneLine(this.#hide(said, values), this.#limits.shown);
    const reason = `sms ${this.#origin}: ${problem}${shown === '' ? '' : `: ${shown}`}`;
    return new DeliveryError(passing ? 'RECEIVER_UNAVAILABLE' : 'BAD_REQUEST', reason, {
      permanent: !passing,
      retryAfter_ms: passing ? asked_ms : undefined,
    });
  }

  /** Without what the settings hold, the number and the text: a gateway may repeat all that it was sent. */
  #hide(text: string, { digits, text: sent }: TemplateValues): string {
    return withoutSecrets(text, [sent, ...this.#secrets, digits]);
  }
}

/**
 * The way `sms`: `to` is a number such as +260970000000; sent is the `text` of the body, or its `line`.
 *
 * Delivered is what the settings call a success. Status 408, 425, 429 and 5xx, no connection and no answer in time
 * may pass, and so does a refusal that `tryAgainIf` fits; everything else is a refusal: an answer that says 200 and
 * the error inside, and a redirect. Rejects with a DeliveryError. Without a word of the gateway nobody knows whether
 * it has sent: give it `<<key>>` where it can drop a repeat.
 *
 * @param settings as the operator wrote them
 * @throws SandlarderError WRONG_USAGE for settings that cannot be used
 */
export function createGateway(settings: unknown, timer: Timer, limits: Partial<GatewayLimits> = {}): Way {
  return new Gateway(readGatewaySettings(settings), timer, { ...GATEWAY_LIMITS, ...limits });
}
