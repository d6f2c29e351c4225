/** A certificate of its own for a server on the loopback, made without any program: X.509 v3, RFC 5280, in DER. */
import { generateKeyPairSync, type KeyObject, sign } from 'node:crypto';

/** A tag, the length and the contents, ITU-T X.690 section 8.1. */
function der(tag: number, ...contents: readonly Uint8Array[]): Buffer {
  const body = Buffer.concat(contents);
  const length = body.length;
  const size = length < 128 ? [length] : length < 256 ? [0x81, length] : [0x82, length >> 8, length & 0xff];
  return Buffer.concat([Buffer.from([tag, ...size]), body]);
}

const sequence = (...parts: readonly Uint8Array[]): Buffer => der(0x30, ...parts);
const hex = (text: string): Buffer => Buffer.from(text, 'hex');
const utcTime = (time: number): Buffer =>
  der(0x17, Buffer.from(`${new Date(time).toISOString().slice(2, 19).replace(/[-:T]/g, '')}Z`));

const SHA256_WITH_ECDSA = sequence(der(0x06, hex('2a8648ce3d040302')));
const COMMON_NAME = der(0x06, hex('550403'));
const ALTERNATIVE_NAME = der(0x06, hex('551d11'));

const DAY_ms = 86_400_000;

function toBeSigned(publicKey: KeyObject, names: readonly Buffer[]): Buffer {
  const name = sequence(der(0x31, sequence(COMMON_NAME, der(0x0c, Buffer.from('127.0.0.1')))));
  const now = Date.now();
  return sequence(
    der(0xa0, der(0x02, hex('02'))),
    der(0x02, hex('5a')),
    SHA256_WITH_ECDSA,
    name,
    sequence(utcTime(now - DAY_ms), utcTime(now + DAY_ms)),
    name,
    publicKey.export({ type: 'spki', format: 'der' }),
    der(0xa3, sequence(sequence(ALTERNATIVE_NAME, der(0x04, sequence(...names))))),
  );
}

export interface Certificate {
  /** PEM. */
  readonly cert: string;
  readonly key: string;
}

/** @param host an address of the loopback or a name */
export function selfSigned(host: '127.0.0.1' | 'other.example' = '127.0.0.1'): Certificate {
  const { publicKey, privateKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' });
  // GeneralName: [2] dNSName, [7] iPAddress.
  const name = host === '127.0.0.1' ? der(0x87, hex('7f000001')) : der(0x82, Buffer.from(host));
  const body = toBeSigned(publicKey, [name]);
  const signature = der(0x03, hex('00'), sign('sha256', body, privateKey));
  const base64 = sequence(body, SHA256_WITH_ECDSA, signature).toString('base64');
  const lines = base64.match(/.{1,64}/g) ?? [];
  return {
    cert: ['-----BEGIN CERTIFICATE-----', ...lines, '-----END CERTIFICATE-----', ''].join('\n'),
    key: privateKey.export({ type: 'pkcs8', format: 'pem' }).toString(),
  };
}
