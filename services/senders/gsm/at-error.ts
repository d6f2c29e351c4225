/** Why a command to a modem failed. */
import { type ErrorCode, SandlarderError } from '../../core/errors.js';

/**
 * `refused`: ERROR, or a result with a code; `silent`: no final result in time; `closed`: the port is gone;
 * `busy`: too many commands wait.
 */
export type AtFailure = 'refused' | 'silent' | 'closed' | 'busy';

/** `+CME ERROR` is 3GPP TS 27.007 section 9.2, `+CMS ERROR` TS 27.005 section 3.2.5. */
export interface AtCause {
  readonly failure: AtFailure;
  readonly cme?: number;
  readonly cms?: number;
}

/** Plain words for what a technician can do something about (codes of the two standards, from memory). */
const CMS_WORDS: Readonly<Record<number, string>> = {
  1: 'no such number',
  8: 'barred by the operator',
  10: 'barred for this SIM',
  21: 'rejected by the network, perhaps no credit',
  27: 'the receiver is out of service',
  28: 'the receiver is not known',
  38: 'the network is out of order',
  41: 'the network failed for a moment',
  42: 'the network is congested',
  50: 'this SIM has no short messages',
  302: 'not allowed now',
  310: 'no SIM',
  311: 'the SIM asks for its PIN',
  322: 'the storage is full',
  330: 'the SIM does not know its service centre',
  331: 'no network',
  332: 'the network gave no answer',
};

export class AtError extends SandlarderError {
  readonly failure: AtFailure;
  readonly cme: number | undefined;
  readonly cms: number | undefined;

  constructor(code: ErrorCode, message: string, { failure, cme, cms }: AtCause, options?: ErrorOptions) {
    super(code, message, options);
    this.failure = failure;
    this.cme = cme;
    this.cms = cms;
  }
}

/** A command's name without what it sets: that may be a PIN or a number. */
export const commandName = (command: string): string => command.replace(/[=?].*$/s, '');

/** The error of a final result such as `ERROR` or `+CMS ERROR: 38`. */
export function refusal(command: string, result: string): AtError {
  const [, kind, text = ''] = /^\+(CM[ES]) ERROR: ?(.*)$/i.exec(result) ?? [];
  const code = /^[0-9]{1,5}$/.test(text) ? Number(text) : undefined;
  const words = kind === 'CMS' && code !== undefined ? CMS_WORDS[code] : undefined;
  const message = `modem: expected OK to ${commandName(command)}, got ${result}${words ? ` (${words})` : ''}`;
  return new AtError('RECEIVER_UNAVAILABLE', message, {
    failure: 'refused',
    ...(code !== undefined && (kind === 'CMS' ? { cms: code } : { cme: code })),
  });
}

/**
 * Causes that lie in the message or the subscription, so that the same message will meet them again. TS 24.011
 * annex E-2, TS 23.040 section 9.2.3.22 and TS 27.005 section 3.2.5, from memory; which of them to count is own
 * judgement. SIM, PIN, storage and service centre are left out: they can be mended while the message waits.
 */
const LASTING: readonly number[] = [
  1, 8, 10, 21, 28, 29, 30, 50, 69, 95, 96, 97, 98, 99, 193, 195, 196, 304, 305,
];

export const isLasting = (error: unknown): boolean =>
  error instanceof AtError && error.cms !== undefined && LASTING.includes(error.cms);
