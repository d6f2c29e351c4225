/** Why a message was not delivered, with what the outbox needs to know to go on. */
import { type ErrorCode, SandlarderError } from '../core/errors.js';

export interface DeliveryErrorOptions extends ErrorOptions {
  /** The receiver has understood and refuses: trying again will hardly change that. */
  readonly permanent?: boolean;
  /** How long the receiver asks to be left alone, ms. */
  readonly retryAfter_ms?: number | undefined;
}

/** What a way rejects with. Any other error counts as one that may pass. */
export class DeliveryError extends SandlarderError {
  readonly permanent: boolean;
  readonly retryAfter_ms: number | undefined;

  constructor(code: ErrorCode, message: string, options: DeliveryErrorOptions = {}) {
    super(code, message, options);
    this.permanent = options.permanent ?? false;
    this.retryAfter_ms = options.retryAfter_ms;
  }
}
