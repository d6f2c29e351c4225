/** What an operator writes of an HTTP gateway for short messages: the request to make, and how to read the answer. */
import { z } from 'zod';
import { webhookProblem } from '../core/alarms/webhook-url.js';
import { SandlarderError } from '../core/errors.js';
import { expectedWords } from '../core/model/problem.js';
import { receiveSchema } from './gateway-receive.js';
import { fieldsOf, fillUrl, type Json, leavesOf, namesOf, type TemplateValues } from './gateway-template.js';
import { parsePath } from './json-path.js';

const scalarSchema = z.union([z.string(), z.number(), z.boolean(), z.null()]);

/** Delivered is an answer with one of these statuses (any 2xx where none is given) and this in its body. */
const successSchema = z
  .strictObject({
    status: z.array(z.int().min(200).max(299)).min(1).optional(),
    /** Into a JSON answer; without `equals` and `matches` it is enough that something true stands there. */
    path: z.string().optional(),
    equals: scalarSchema.optional(),
    /** A regular expression, over the value at `path`, or over the answer as it came. */
    matches: z.string().optional(),
  })
  .refine(({ path, equals }) => equals === undefined || path !== undefined, 'expected path beside equals')
  .refine(
    ({ equals, matches }) => equals === undefined || matches === undefined,
    'expected equals or matches, got both',
  );

const settingsSchema = z.strictObject({
  method: z.enum(['GET', 'POST', 'PUT']).default('POST'),
  url: z.string().min(1),
  headers: z.record(z.string(), z.string()).default({}),
  /** How the body is written: absent without one. */
  contentType: z.enum(['json', 'form', 'text']).optional(),
  /** json: any value; form: names and texts; text: a text. */
  body: z.json().optional(),
  /** The sender's name or number, where the template asks for it. */
  from: z.string().min(1).optional(),
  success: successSchema.default({}),
  /** A regular expression: a refusal whose text it fits may pass. Other refusals are tried three times only. */
  tryAgainIf: z.string().optional(),
  receive: receiveSchema.optional(),
});

export type GatewaySettings = z.output<typeof settingsSchema>;

const refuse = (reason: string): never => {
  throw new SandlarderError('WRONG_USAGE', `sms gateway: ${reason}`);
};

/** Mistakes that one message names. */
const NAMED = 3;

/** Values with everything in them that could break out of its place. */
const PROBE: TemplateValues = {
  to: '+1000',
  digits: '1000',
  text: 'a/b?c#d&e=f "g"',
  key: 'a/b',
  from: 'x',
  parts: '1',
};

/** Reasons do not repeat the URL, nor what stands in headers and body: any of them may hold a secret. */
function checkUrl({ url }: GatewaySettings): void {
  fieldsOf('url', url);
  if (/^[^/?#]*:\/\/[^/?#]*<</.test(url)) refuse('url: expected a host without fields');
  const problem = webhookProblem(fillUrl(url, PROBE));
  if (problem !== undefined) refuse(`url: ${problem}`);
}

/** Written by the program or the connection itself. */
const OWN_HEADERS = ['host', 'content-length', 'transfer-encoding', 'connection'];

function checkHeaders({ headers }: GatewaySettings): void {
  for (const [name, value] of Object.entries(headers)) {
    // RFC 9110 section 5.6.2, token.
    if (!/^[!#$%&'*+.^_`|~0-9A-Za-z-]{1,100}$/.test(name))
      refuse('headers: expected names of letters, digits and -');
    if (OWN_HEADERS.includes(name.toLowerCase())) refuse(`headers: expected no ${name.toLowerCase()}`);
    if (fieldsOf(`headers: ${name}`, value).includes('text'))
      refuse(`headers: ${name}: expected <<text>> in the url or the body only`);
    if (!/^[\x20-\x7e]*$/.test(value)) refuse(`headers: ${name}: expected printable ASCII`);
  }
}

function checkBody({ method, contentType, body }: GatewaySettings): void {
  for (const text of leavesOf(body as Json | undefined)) fieldsOf('body', text);
  if (namesOf(body as Json | undefined).some((name) => name.includes('<<')))
    refuse('body: expected fields in values, not in names');
  if ((contentType === undefined) !== (body === undefined))
    refuse('expected contentType and body, or neither');
  if (method === 'GET' && body !== undefined) refuse('expected no body with GET');
  if (contentType === 'text' && typeof body !== 'string')
    refuse('body: expected a text for contentType text');
  const isForm = z.record(z.string(), z.string()).safeParse(body).success;
  if (contentType === 'form' && !isForm) refuse('body: expected names and texts for contentType form');
}

function checkFields({ url, headers, body, from }: GatewaySettings): void {
  const inMessage = [url, ...leavesOf(body as Json | undefined)].flatMap((text) => fieldsOf('body', text));
  const anywhere = [...inMessage, ...Object.values(headers).flatMap((text) => fieldsOf('headers', text))];
  if (!inMessage.includes('text')) refuse('expected <<text>> in the url or the body');
  if (!anywhere.includes('to') && !anywhere.includes('digits')) refuse('expected <<to>> or <<digits>>');
  if (anywhere.includes('from') && from === undefined)
    refuse('expected from, because the template has <<from>>');
  if (from !== undefined && !/^[\x20-\x7e]{1,40}$/.test(from))
    refuse('from: expected up to 40 characters of ASCII');
}

function checkPattern(name: string, pattern: string | undefined): void {
  try {
    new RegExp(pattern ?? '', 'u');
  } catch {
    refuse(`${name}: expected a regular expression`);
  }
}

/**
 * Reads the settings of a gateway.
 *
 * @throws SandlarderError WRONG_USAGE with what was expected, and where; nothing of what is in them is repeated but
 *   the name of a field that is none
 */
export function readGatewaySettings(value: unknown): GatewaySettings {
  const parsed = settingsSchema.safeParse(value);
  if (!parsed.success) {
    const wrong = parsed.error.issues.map(
      (issue) => `${issue.path.join('.') || 'settings'}: ${expectedWords(issue)}`,
    );
    return refuse(wrong.slice(0, NAMED).join('; '));
  }
  const settings = parsed.data;
  checkUrl(settings);
  checkHeaders(settings);
  checkBody(settings);
  checkFields(settings);
  checkPattern('success.matches', settings.success.matches);
  checkPattern('tryAgainIf', settings.tryAgainIf);
  if (settings.success.path !== undefined) parsePath(settings.success.path);
  return settings;
}
