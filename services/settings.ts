/**
 * The one place that reads flags and environment for a service: validated, frozen, and printed without secrets.
 */
import { z } from 'zod';
import { webhookProblem } from './core/alarms/webhook-url.js';
import { SandlarderError } from './core/errors.js';
import { describeIssue } from './core/model/problem.js';
import { type ListenAddress, parseListenAddress } from './http/index.js';
import { parseBrokerUrl } from './intake/index.js';

/** Flags of `serve` as the command line gives them. */
export interface ServeFlags {
  readonly data: string;
  readonly listen: string;
  readonly mqttListen: string;
  readonly broker?: string | undefined;
  readonly webhook?: readonly string[] | undefined;
}

export interface Credentials {
  readonly user: string;
  readonly password: string;
}

export interface ServeSettings {
  /** Directory of the database. */
  readonly data: string;
  readonly listen: ListenAddress;
  /** Asked for over HTTP. */
  readonly httpCredentials: Credentials | undefined;
  /** Where the built-in broker listens; not used with an external broker. */
  readonly mqttListen: ListenAddress;
  /** Asked for by the built-in broker, or given to the external one. */
  readonly mqttCredentials: Credentials | undefined;
  /** An external broker instead of the built-in one. */
  readonly broker: string | undefined;
  /** Told of every alarm of every bed. */
  readonly webhooks: readonly string[];
}

/** What is read from the environment: secrets, which do not belong on a command line that everybody can list. */
const environmentSchema = z.object({
  SANDLARDER_HTTP_USER: z.string().min(1).max(100).optional(),
  SANDLARDER_HTTP_PASSWORD: z.string().min(1).max(256).optional(),
  SANDLARDER_MQTT_USER: z.string().min(1).max(100).optional(),
  SANDLARDER_MQTT_PASSWORD: z.string().min(1).max(256).optional(),
});

type Environment = Readonly<Record<string, string | undefined>>;

function secretsOf(environment: Environment): z.output<typeof environmentSchema> {
  const parsed = environmentSchema.safeParse(environment, { reportInput: false });
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    const named = issue ? describeIssue(issue).split(', got')[0] : 'environment';
    throw new SandlarderError('WRONG_USAGE', `environment variable ${named}`);
  }
  return parsed.data;
}

/**
 * User and password for a service that asks for them over HTTP.
 *
 * @throws SandlarderError WRONG_USAGE for one without the other
 */
export function readHttpCredentials(environment: Environment): Credentials | undefined {
  const secrets = secretsOf(environment);
  return pairOf('HTTP', secrets.SANDLARDER_HTTP_USER, secrets.SANDLARDER_HTTP_PASSWORD);
}

/**
 * @throws SandlarderError WRONG_USAGE naming the flag or variable, what was expected and what was there
 */
export function readServeSettings(flags: ServeFlags, environment: Environment): ServeSettings {
  const secrets = secretsOf(environment);
  return Object.freeze({
    data: flags.data,
    listen: addressOf('--listen', flags.listen),
    httpCredentials: pairOf('HTTP', secrets.SANDLARDER_HTTP_USER, secrets.SANDLARDER_HTTP_PASSWORD),
    mqttListen: addressOf('--mqtt-listen', flags.mqttListen),
    mqttCredentials: pairOf('MQTT', secrets.SANDLARDER_MQTT_USER, secrets.SANDLARDER_MQTT_PASSWORD),
    broker: flags.broker === undefined ? undefined : brokerUrl(flags.broker),
    webhooks: (flags.webhook ?? []).map(webhookUrl),
  });
}

function addressOf(flag: string, text: string): ListenAddress {
  try {
    return parseListenAddress(text);
  } catch {
    throw new SandlarderError(
      'WRONG_USAGE',
      `${flag}: expected HOST:PORT such as 127.0.0.1:8080, got ${JSON.stringify(text)}`,
    );
  }
}

function pairOf(
  name: string,
  user: string | undefined,
  password: string | undefined,
): Credentials | undefined {
  if (user === undefined && password === undefined) return undefined;
  if (user === undefined || password === undefined)
    throw new SandlarderError(
      'WRONG_USAGE',
      `expected SANDLARDER_${name}_USER and SANDLARDER_${name}_PASSWORD together, got only one of them`,
    );
  return Object.freeze({ user, password });
}

function brokerUrl(text: string): string {
  try {
    parseBrokerUrl(text);
    return text;
  } catch (error) {
    const { message } = error as Error;
    throw new SandlarderError(
      'WRONG_USAGE',
      `--broker: ${message} (user and password: SANDLARDER_MQTT_USER, SANDLARDER_MQTT_PASSWORD)`,
    );
  }
}

function webhookUrl(text: string): string {
  const problem = webhookProblem(text);
  if (problem !== undefined) throw new SandlarderError('WRONG_USAGE', `--webhook: ${problem}`);
  return text;
}

/** One line for the start of the log. Secrets are named as set, never shown. */
export function describeSettings(settings: ServeSettings): string {
  const set = (credentials: Credentials | undefined): string => (credentials ? 'with password' : 'open');
  const { host, port } = settings.mqttListen;
  const broker = settings.broker ?? `built in on ${host}:${port}, ${set(settings.mqttCredentials)}`;
  const listen = `${settings.listen.host}:${settings.listen.port}, ${set(settings.httpCredentials)}`;
  return `data ${settings.data}; http ${listen}; broker ${broker}; webhooks ${settings.webhooks.length}`;
}
