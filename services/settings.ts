/**
 * The one place that reads flags and environment for a service: validated, frozen, and printed without secrets.
 */
import { z } from 'zod';
import { type InfluxAddress, parseInfluxUrl } from './archive/influx/address.js';
import { webhookProblem } from './core/alarms/webhook-url.js';
import { SandlarderError } from './core/errors.js';
import { describeIssue } from './core/model/problem.js';
import { textOf } from './files.js';
// Not by the doors of their folders: every command reads its credentials here, and would load all of a service for it.
import type { ListenAddress } from './http/address.js';
import { parseBrokerUrl } from './intake/broker-url.js';
import { type LogForm, readLogForm } from './log.js';
import { createEmail } from './senders/email.js';
import { type GatewaySettings, readGatewaySettings } from './senders/gateway-settings.js';
import { secretProblem } from './senders/signature.js';
import { wallTimer } from './senders/wall-timer.js';
import { addressOf, readTransport, type Transport, type TransportFlags } from './transport.js';

/** Flags of `serve` as the command line gives them. */
export interface ServeFlags extends TransportFlags {
  readonly data: string;
  readonly listen: string;
  readonly mqttListen: string;
  readonly broker?: string | undefined;
  readonly tellCentre?: boolean | undefined;
  readonly influx?: string | undefined;
  readonly keepDays?: string | undefined;
  readonly webhook?: readonly string[] | undefined;
  readonly modem?: string | undefined;
  readonly modemBaud?: string | undefined;
  readonly smsGateway?: string | undefined;
  readonly mailFrom?: string | undefined;
  readonly publicUrl?: string | undefined;
  readonly log?: string | undefined;
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
  /** Whether a centre is sent what is written down and found here. */
  readonly tellCentre: boolean;
  /** The partition of a centre that this is; absent of a service that is whole in itself. */
  readonly partition?: { readonly group: string; readonly number: number; readonly of: number } | undefined;
  /** For how long readings are kept one by one, days; older ones are kept by hours. */
  readonly keep_days: number;
  /** An InfluxDB that readings are forwarded to. */
  readonly influx: InfluxAddress | undefined;
  /** Told of every alarm of every bed. */
  readonly webhooks: readonly string[];
  /** Signs what goes to webhooks. */
  readonly webhookSecret: string | undefined;
  /** A GSM modem of the station's own. */
  readonly modem: { readonly path: string; readonly baudRate: number; readonly pin?: string } | undefined;
  /** An HTTP gateway for short messages instead. */
  readonly gateway: GatewaySettings | undefined;
  readonly mail: { readonly url: string; readonly from: string } | undefined;
  /** Where people reach this service; links in messages begin with it. */
  readonly publicUrl: string | undefined;
  /** Lines for people, or as JSON. */
  readonly log: LogForm;
  /** How passwords travel. */
  readonly transport: Transport;
  readonly passwordCost?: { readonly log2N: number; readonly r: number; readonly p: number } | undefined;
}

/** What is read from the environment: secrets, which do not belong on a command line that everybody can list. */
const environmentSchema = z.object({
  SANDLARDER_HTTP_USER: z.string().min(1).max(100).optional(),
  SANDLARDER_HTTP_PASSWORD: z.string().min(1).max(256).optional(),
  SANDLARDER_MQTT_USER: z.string().min(1).max(100).optional(),
  SANDLARDER_MQTT_PASSWORD: z.string().min(1).max(256).optional(),
  SANDLARDER_INFLUX_USER: z.string().min(1).max(256).optional(),
  SANDLARDER_INFLUX_PASSWORD: z.string().min(1).max(256).optional(),
  SANDLARDER_MODEM_PIN: z
    .string()
    .regex(/^\d{4,8}$/, 'expected 4 to 8 digits')
    .optional(),
  SANDLARDER_SMTP_URL: z.string().min(1).max(500).optional(),
  SANDLARDER_WEBHOOK_SECRET: z.string().min(1).max(256).optional(),
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
export const readHttpCredentials = (environment: Environment) => pairIn('HTTP', environment);

/** The same of the service at its broker. */
export const readMqttCredentials = (environment: Environment) => pairIn('MQTT', environment);

/**
 * @throws SandlarderError WRONG_USAGE naming the flag or variable, what was expected and what was there
 */
export function readServeSettings(flags: ServeFlags, environment: Environment): ServeSettings {
  const secrets = secretsOf(environment);
  return Object.freeze({
    data: flags.data,
    listen: addressOf('--listen', flags.listen),
    httpCredentials: readHttpCredentials(environment),
    mqttListen: addressOf('--mqtt-listen', flags.mqttListen),
    mqttCredentials: readMqttCredentials(environment),
    broker: flags.broker === undefined ? undefined : brokerUrl(flags.broker),
    tellCentre: tellCentreOf(flags),
    keep_days: keepDaysOf(flags.keepDays, environment.SANDLARDER_KEEP_DAYS),
    influx: flags.influx === undefined ? undefined : readInfluxAddress('--influx', flags.influx, environment),
    webhooks: (flags.webhook ?? []).map(webhookUrl),
    webhookSecret: webhookSecretOf(secrets.SANDLARDER_WEBHOOK_SECRET),
    ...messagesOf(flags, secrets),
    log: readLogForm(flags.log),
    transport: readTransport(flags),
  });
}

/**
 * Where an InfluxDB is, with user and password from the address or else the environment.
 *
 * @param name of the flag that gave the address
 * @throws SandlarderError WRONG_USAGE naming what was expected
 */
export function readInfluxAddress(name: string, url: string, environment: Environment): InfluxAddress {
  try {
    return parseInfluxUrl(url, pairIn('INFLUX', environment));
  } catch (error) {
    throw new SandlarderError('WRONG_USAGE', `${name}: ${(error as Error).message}`);
  }
}

/** Days: by default as many as one question for readings may span, a season and the one before it. */
const KEEP_days = { least: 30, usual: 400, most: 36_500 };

function keepDaysOf(flag: string | undefined, variable: string | undefined): number {
  const text = flag ?? variable;
  if (text === undefined) return KEEP_days.usual;
  const days = /^\d{1,6}$/.test(text) ? Number(text) : Number.NaN;
  if (days >= KEEP_days.least && days <= KEEP_days.most) return days;
  const name = flag === undefined ? 'environment variable SANDLARDER_KEEP_DAYS' : '--keep-days';
  throw new SandlarderError(
    'WRONG_USAGE',
    `${name}: expected whole days from ${KEEP_days.least} to ${KEEP_days.most}, got ${JSON.stringify(text)}`,
  );
}

function pairIn(name: 'HTTP' | 'MQTT' | 'INFLUX', environment: Environment): Credentials | undefined {
  const secrets = secretsOf(environment);
  const user = secrets[`SANDLARDER_${name}_USER` as const];
  const password = secrets[`SANDLARDER_${name}_PASSWORD` as const];
  if (user === undefined && password === undefined) return undefined;
  if (user === undefined || password === undefined)
    throw new SandlarderError(
      'WRONG_USAGE',
      `expected SANDLARDER_${name}_USER and SANDLARDER_${name}_PASSWORD together, got only one of them`,
    );
  return Object.freeze({ user, password });
}

/** The built-in broker keeps nothing for a bridge that is away. */
function tellCentreOf({ tellCentre = false, broker }: ServeFlags): boolean {
  if (tellCentre && broker === undefined)
    throw new SandlarderError(
      'WRONG_USAGE',
      '--tell-centre: expected --broker with it, from which a bridge leads to the centre, got the built-in broker',
    );
  return tellCentre;
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

function webhookSecretOf(secret: string | undefined): string | undefined {
  const problem = secret === undefined ? undefined : secretProblem(secret);
  if (problem !== undefined)
    throw new SandlarderError('WRONG_USAGE', `environment variable SANDLARDER_WEBHOOK_SECRET: ${problem}`);
  return secret;
}

type Messages = Pick<ServeSettings, 'modem' | 'gateway' | 'mail' | 'publicUrl'>;

function messagesOf(flags: ServeFlags, secrets: ReturnType<typeof secretsOf>): Messages {
  const { modem: path, smsGateway, mailFrom, publicUrl } = flags;
  if (path !== undefined && smsGateway !== undefined)
    throw new SandlarderError('WRONG_USAGE', 'expected --modem or --sms-gateway, got both');
  const { SANDLARDER_SMTP_URL: url, SANDLARDER_MODEM_PIN: pin } = secrets;
  if ((url === undefined) !== (mailFrom === undefined))
    throw new SandlarderError(
      'WRONG_USAGE',
      'expected --mail-from and SANDLARDER_SMTP_URL together, got one of them',
    );
  return {
    modem: path === undefined ? undefined : { path, baudRate: baudOf(flags.modemBaud), ...(pin && { pin }) },
    gateway: smsGateway === undefined ? undefined : gatewayOf(smsGateway),
    mail: url === undefined || mailFrom === undefined ? undefined : mailOf(url, mailFrom),
    publicUrl: publicUrl === undefined ? undefined : publicUrlOf(publicUrl),
  };
}

const BAUDS = [1200, 2400, 4800, 9600, 19_200, 38_400, 57_600, 115_200, 230_400, 460_800, 921_600];

function baudOf(text = '115200'): number {
  const baud = Number(text);
  if (BAUDS.includes(baud)) return baud;
  throw new SandlarderError(
    'WRONG_USAGE',
    `--modem-baud: expected one of ${BAUDS.join(', ')}, got ${JSON.stringify(text)}`,
  );
}

function gatewayOf(file: string): GatewaySettings {
  const text = textOf(file, { flag: '--sms-gateway' });
  try {
    return readGatewaySettings(jsonOf(text));
  } catch (error) {
    throw new SandlarderError('WRONG_USAGE', `--sms-gateway: ${file}: ${(error as Error).message}`);
  }
}

/** The parser's own words are left out: they repeat what stands there, which may be a key. */
function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    throw new SandlarderError('WRONG_USAGE', 'expected JSON');
  }
}

function mailOf(url: string, from: string): { url: string; from: string } {
  try {
    createEmail({ url, from, timer: wallTimer });
  } catch (error) {
    throw new SandlarderError('WRONG_USAGE', `e-mail: ${(error as Error).message}`);
  }
  return { url, from };
}

function publicUrlOf(text: string): string {
  const problem = URL.canParse(text)
    ? webhookProblem(text)
    : `expected a URL such as https://store.example, got ${JSON.stringify(text)}`;
  if (problem !== undefined) throw new SandlarderError('WRONG_USAGE', `--public-url: ${problem}`);
  return text;
}
