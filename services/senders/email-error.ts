/** What a failed attempt to hand a message to a mail server means, in one sentence without the password. */
import { DeliveryError } from './delivery-error.js';
import type { MailServer } from './email-server.js';
import { oneLine } from './one-line.js';

/** What nodemailer says of a failure. */
interface Failure {
  readonly code: string;
  /** Code of the system or of TLS, where there was one. */
  readonly originalCode: string;
  /** Of the server's reply; undefined where it gave none. */
  readonly status: number | undefined;
  readonly command: string;
  readonly text: string;
}

/** Characters of the server's own words. */
const SHOWN = 300;

function failureOf(error: unknown): Failure {
  const fields = (typeof error === 'object' && error !== null ? error : {}) as Record<string, unknown>;
  const text = (value: unknown): string => (typeof value === 'string' ? value : '');
  return {
    code: text(fields['code']),
    originalCode: text(fields['originalCode']),
    status: typeof fields['responseCode'] === 'number' ? fields['responseCode'] : undefined,
    command: text(fields['command']),
    text: text(fields['response']) || (error instanceof Error ? error.message : String(error)),
  };
}

/** Names of OpenSSL and Node for a certificate or a handshake that failed. */
const TLS_CODE = /^(ERR_TLS|ERR_SSL|CERT_|DEPTH_ZERO_|SELF_SIGNED_|UNABLE_TO_|HOSTNAME_|EPROTO$)/;

/** Instead of the words of the TLS library, which are none for a technician. */
const TLS_WORDS: Readonly<Record<string, string>> = {
  ERR_SSL_WRONG_VERSION_NUMBER: 'no TLS on this port',
  DEPTH_ZERO_SELF_SIGNED_CERT: 'certificate not trusted, it is self-signed',
  SELF_SIGNED_CERT_IN_CHAIN: 'certificate not trusted, it is self-signed',
  UNABLE_TO_VERIFY_LEAF_SIGNATURE: 'certificate not trusted, its issuer is not known',
  UNABLE_TO_GET_ISSUER_CERT_LOCALLY: 'certificate not trusted, its issuer is not known',
  CERT_HAS_EXPIRED: 'certificate has expired, or the clock is wrong',
  CERT_NOT_YET_VALID: 'certificate not valid yet, or the clock is wrong',
  ERR_TLS_CERT_ALTNAME_INVALID: 'certificate of another host',
};

/** The stage at which it failed, and what the reader may mend there. */
function stageOf({ code, originalCode, status, command }: Failure): string {
  if (code === 'ETLS' && status !== undefined) return 'STARTTLS refused';
  if (code === 'ETLS' || TLS_CODE.test(originalCode)) return 'TLS trouble';
  if (code === 'EAUTH') return 'login refused';
  if (command === 'RCPT TO') return status && status < 500 ? 'recipient put off' : 'recipient refused';
  if (command === 'MAIL FROM') return 'sender not taken';
  if (command === 'DATA') return 'message not taken';
  if (code === 'ETIMEDOUT') return 'no answer in time';
  return status === undefined ? 'no connection' : 'server not ready';
}

/** Without the password, the forms in which it crosses the wire, and the receiver's address. */
function withoutPrivate(text: string, { auth }: MailServer, to: string): string {
  const { user = '', pass = '' } = auth ?? {};
  const base64 = (part: string): string => Buffer.from(part).toString('base64');
  const secrets = auth ? [base64(`\0${user}\0${pass}`), base64(pass), pass] : [];
  const shorter = secrets.reduce((rest, secret) => rest.replaceAll(secret, '[hidden]'), text);
  return shorter.replaceAll(to, '[address]');
}

/** RFC 5321 section 4.2.1: 5yz is for good. */
const isForGood = ({ status, command }: Failure): boolean =>
  status !== undefined && status >= 500 && (command === 'RCPT TO' || command === 'DATA');

/**
 * For good is only a 5yz reply to the recipient or to the message itself. Everything else may pass, a refused
 * password too: it is for the operator to mend, and the alarm still wants to be told then.
 */
export function emailError(error: unknown, server: MailServer, to: string): DeliveryError {
  const failure = failureOf(error);
  const permanent = isForGood(failure);
  const { originalCode } = failure;
  const text = TLS_WORDS[originalCode] ?? failure.text;
  const words = originalCode !== '' && !text.includes(originalCode) ? `${text} (${originalCode})` : text;
  const said = oneLine(withoutPrivate(words, server, to), SHOWN);
  return new DeliveryError(
    permanent ? 'BAD_REQUEST' : 'RECEIVER_UNAVAILABLE',
    `e-mail ${server.host}:${server.port}: ${stageOf(failure)}: ${said}`,
    { permanent },
  );
}
