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
  'FORBIDDEN',
  'TOO_MANY_ATTEMPTS',
  'CHANGED_MEANWHILE',
  'VERSION_MISSING',
] as const;

export type ErrorCode = (typeof ERROR_CODES)[number];

/** One thing that is wrong in a document, and where. */
export interface Misfit {
  readonly path: readonly (string | number)[];
  readonly message: string;
}

interface SandlarderErrorOptions extends ErrorOptions {
  /** Each thing that the message sums up, where there is more to say of its place. */
  readonly misfits?: readonly Misfit[];
}

/** The only error that the program throws on purpose. */
export class SandlarderError extends Error {
  override readonly name = 'SandlarderError';
  readonly code: ErrorCode;
  readonly misfits: readonly Misfit[];

  constructor(code: ErrorCode, message: string, { misfits = [], ...options }: SandlarderErrorOptions = {}) {
    super(message, options);
    this.code = code;
    this.misfits = misfits;
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
