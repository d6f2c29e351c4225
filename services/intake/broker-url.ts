/** Where a station's own broker is: `mqtt://host[:port]` or, with TLS, `mqtts://host[:port]`. */
import { SandlarderError } from '../core/errors.js';

export interface BrokerAddress {
  readonly host: string;
  readonly port: number;
  readonly tls: boolean;
}

const DEFAULT_PORT: Readonly<Record<string, number>> = { 'mqtt:': 1883, 'mqtts:': 8883 };

/**
 * Reads a broker's address.
 *
 * @throws SandlarderError WRONG_USAGE for another scheme, a path, or a user and password, which belong in the
 * environment: a command line can be read by every user of the machine
 */
export function parseBrokerUrl(text: string): BrokerAddress {
  const url = URL.canParse(text) ? new URL(text) : undefined;
  const port = url === undefined ? undefined : DEFAULT_PORT[url.protocol];
  if (url === undefined || port === undefined || url.hostname === '')
    throw wrong('expected mqtt://host[:port] or mqtts://host[:port]', withoutSecrets(text));
  if (url.username !== '' || url.password !== '')
    throw wrong('expected user and password in the environment', 'them in the address');
  if (!['', '/'].includes(url.pathname) || url.search !== '' || url.hash !== '')
    throw wrong('expected nothing after the port', `${url.pathname}${url.search}${url.hash}`);
  const host = url.hostname.replace(/^\[(.*)\]$/, '$1');
  return { host, port: url.port === '' ? port : Number(url.port), tls: url.protocol === 'mqtts:' };
}

const wrong = (expected: string, got: string): SandlarderError =>
  new SandlarderError('WRONG_USAGE', `broker address: ${expected}, got ${got}`);

/** What may be a password is not repeated. */
const withoutSecrets = (text: string): string => JSON.stringify(text.replace(/\/\/[^@/]*@/, '//…@'));
