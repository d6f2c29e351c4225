/** What a command asks of a running service, over HTTP. */

import { z } from 'zod';
import { ERROR_CODES, type ErrorCode, SandlarderError } from '../core/errors.js';
import { textOf } from '../files.js';
import { readHttpCredentials } from '../settings.js';

/** Longest wait for an answer, ms: a certificate takes tenths of a second. */
const ANSWER_ms = 30_000;

const JSON_TYPE = 'application/json';

const problemSchema = z.object({
  detail: z.string(),
  code: z.enum(ERROR_CODES).optional(),
  errors: z
    .array(z.object({ pointer: z.string().optional(), parameter: z.string().optional(), detail: z.string() }))
    .optional(),
});

/** Flags of every command that asks a running service. */
export interface ServiceFlags {
  readonly service: string;
  /** Goes before what the environment says. */
  readonly tokenFile?: string | undefined;
}

export class ServiceClient {
  readonly #base: URL;
  readonly #authorization: string | undefined;

  /** @throws SandlarderError WRONG_USAGE for an address that is none, a token that is none, or a user without a password */
  constructor(
    { service, tokenFile }: ServiceFlags,
    environment: Readonly<Record<string, string | undefined>> = process.env,
  ) {
    this.#base = baseOf(service);
    this.#authorization = authorizationOf(tokenFile, environment);
  }

  get<Answer>(path: string): Promise<Answer> {
    return this.#json('GET', path);
  }

  post<Answer>(path: string, body: unknown): Promise<Answer> {
    return this.#json('POST', path, body);
  }

  /** Sends bytes as they are. */
  async put(path: string, bytes: Uint8Array, type: string): Promise<void> {
    await this.#ask('PUT', path, bytes, type);
  }

  /** The bytes of an answer that is no JSON. */
  async file(path: string): Promise<Uint8Array> {
    return new Uint8Array(await (await this.#ask('GET', path)).arrayBuffer());
  }

  async #json<Answer>(method: string, path: string, body?: unknown): Promise<Answer> {
    return (await (await this.#ask(method, path, body)).json()) as Answer;
  }

  async #ask(method: string, path: string, body?: unknown, type = JSON_TYPE): Promise<Response> {
    let response: Response;
    try {
      response = await fetch(new URL(path, this.#base), {
        method,
        headers: {
          ...(body !== undefined && { 'content-type': type }),
          ...(this.#authorization !== undefined && { authorization: this.#authorization }),
        },
        ...(body !== undefined && {
          body: type === JSON_TYPE ? JSON.stringify(body) : (body as Uint8Array<ArrayBuffer>),
        }),
        signal: AbortSignal.timeout(ANSWER_ms),
      });
    } catch (error) {
      throw new SandlarderError(
        'RECEIVER_UNAVAILABLE',
        `expected a service at ${this.#base.origin}, got no answer: start "sandlarder serve", or name its address with --service`,
        { cause: error },
      );
    }
    if (!response.ok) throw await problemOf(response);
    return response;
  }
}

function baseOf(service: string): URL {
  try {
    const url = new URL(service);
    if (['http:', 'https:'].includes(url.protocol) && url.pathname === '/') return url;
  } catch {
    // Refused below, with what was expected.
  }
  throw new SandlarderError(
    'WRONG_USAGE',
    `--service: expected an address such as http://127.0.0.1:8080, got ${JSON.stringify(service)}`,
  );
}

/** A token: of the file that a flag names, of the environment, or of the file that that names; else user and password. */
function authorizationOf(
  tokenFile: string | undefined,
  environment: Readonly<Record<string, string | undefined>>,
): string | undefined {
  const { SANDLARDER_TOKEN: given, SANDLARDER_TOKEN_FILE: file } = environment;
  if (tokenFile !== undefined) return bearer('--token-file', tokenIn('--token-file', tokenFile));
  if (given !== undefined) return bearer('SANDLARDER_TOKEN', given);
  if (file !== undefined) return bearer('SANDLARDER_TOKEN_FILE', tokenIn('SANDLARDER_TOKEN_FILE', file));
  const credentials = readHttpCredentials(environment);
  if (!credentials) return undefined;
  const { user, password } = credentials;
  return `Basic ${Buffer.from(`${user}:${password}`).toString('base64')}`;
}

/** What stands there is not repeated: it may be another secret. */
function bearer(name: string, token: string): string {
  if (/^[A-Za-z0-9_-]{20,100}$/.test(token)) return `Bearer ${token}`;
  throw new SandlarderError(
    'WRONG_USAGE',
    `${name}: expected a token that the service made, got another text`,
  );
}

const tokenIn = (flag: string, file: string): string => textOf(file, { flag }).trim();

async function problemOf(response: Response): Promise<SandlarderError> {
  const parsed = problemSchema.safeParse(await response.json().catch(() => undefined));
  if (!parsed.success)
    return new SandlarderError('BAD_REQUEST', `the service answered ${response.status} without a reason`);
  const { detail, code, errors } = parsed.data;
  const [first] = errors ?? [];
  const where = first?.pointer?.replace(/^#\//, '').replaceAll('/', '.') ?? first?.parameter;
  const text = first ? `${where ? `${where}: ` : ''}${first.detail}` : detail;
  return new SandlarderError(code ?? codeOf(response.status), text);
}

const codeOf = (status: number): ErrorCode => {
  if (status === 401) return 'UNAUTHORISED';
  return status === 404 ? 'NOT_FOUND' : 'BAD_REQUEST';
};
