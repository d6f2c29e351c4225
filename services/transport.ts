/** How passwords travel to the service: by TLS, behind something that speaks it, or in the clear by choice. */
import { SandlarderError } from './core/errors.js';
// Not by the door of its folder, as settings.ts.
import { type ListenAddress, parseListenAddress } from './http/address.js';

export interface Transport {
  /** Files of a certificate with its chain and of its key, PEM. */
  readonly tls: { readonly cert: string; readonly key: string } | undefined;
  /** Where the built-in broker also listens, by TLS. */
  readonly mqttsListen: ListenAddress | undefined;
  readonly behindProxy: boolean;
  readonly plainPasswords: boolean;
}

export interface TransportFlags {
  readonly tlsCert?: string | undefined;
  readonly tlsKey?: string | undefined;
  readonly mqttsListen?: string | undefined;
  readonly broker?: string | undefined;
  readonly behindProxy?: boolean | undefined;
  readonly plainPasswords?: boolean | undefined;
}

/** @throws SandlarderError WRONG_USAGE naming the flag */
export function readTransport(flags: TransportFlags): Transport {
  const {
    tlsCert: cert,
    tlsKey: key,
    mqttsListen,
    broker,
    behindProxy = false,
    plainPasswords = false,
  } = flags;
  if ((cert === undefined) !== (key === undefined))
    throw new SandlarderError('WRONG_USAGE', 'expected --tls-cert and --tls-key together, got one of them');
  if (behindProxy && cert !== undefined)
    throw new SandlarderError('WRONG_USAGE', 'expected --tls-cert or --behind-proxy, got both');
  if (mqttsListen !== undefined && (cert === undefined || broker !== undefined))
    throw new SandlarderError(
      'WRONG_USAGE',
      '--mqtts-listen: expected --tls-cert and --tls-key with it, and the built-in broker',
    );
  return Object.freeze({
    ...{ behindProxy, plainPasswords },
    tls: cert === undefined || key === undefined ? undefined : { cert, key },
    mqttsListen: mqttsListen === undefined ? undefined : addressOf('--mqtts-listen', mqttsListen),
  });
}

/** @throws SandlarderError WRONG_USAGE naming the flag */
export function addressOf(flag: string, text: string): ListenAddress {
  try {
    return parseListenAddress(text);
  } catch {
    throw new SandlarderError(
      'WRONG_USAGE',
      `${flag}: expected HOST:PORT such as 127.0.0.1:8080, got ${JSON.stringify(text)}`,
    );
  }
}

/** A part of the line at the start of the log. */
export function describeTransport({ tls, mqttsListen, behindProxy, plainPasswords }: Transport): string {
  return [
    ...(tls ? [`TLS by ${tls.cert}`] : []),
    ...(mqttsListen ? [`MQTT by TLS on ${mqttsListen.host}:${mqttsListen.port}`] : []),
    ...(behindProxy ? ['behind a proxy that speaks TLS'] : []),
    ...(plainPasswords ? ['passwords in the clear, by choice'] : []),
  ]
    .map((part) => `; ${part}`)
    .join('');
}
