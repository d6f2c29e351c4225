/**
 * The one error class of the program and its closed list of codes.
 *
 * Messages say what was looked at, what was expected and what was there. Branch on `code`, never on the text.
 */

export const ERROR_CODES = [
  'WRONG_USAGE',
  'BAD_SITE_FILE',
  'BAD_REQUEST',
  'BAD_MESSAGE',
  'OUT_OF_DOMAIN',
  'TOO_FEW_SAMPLES',
  'NOT_FOUND',
  'CONFLICT',
  'LIMIT_EXCEEDED',
  'STORE_UNAVAILABLE',
  'BROKER_UNAVAILABLE',
  'RECEIVER_UNAVAILABLE',
  'LISTEN_REFUSED',
  'UNAUTHORISED',
] as const;

export type ErrorCode = (typeof ERROR_CODES)[number];

/** The only error that the program throws on purpose. */
export class SandlarderError extends Error {
  override readonly name = 'SandlarderError';
  readonly code: ErrorCode;

  constructor(code: ErrorCode, message: string, options?: ErrorOptions) {
    super(message, options);
    this.code = code;
  }
}

/**
 * Throws OUT_OF_DOMAIN unless `low <= value <= high`. Written positively, so that NaN fails.
 *
 * @param name what the value is, with its unit, as the message shall call it
 */
export function requireInDomain(name: string, value: number, low: number, high: number): void {
  if (!(value >= low && value <= high)) {
    throw new SandlarderError('OUT_OF_DOMAIN', `${name} must be in [${low}, ${high}], got ${value}`);
  }
}
