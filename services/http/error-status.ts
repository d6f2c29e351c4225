/** The HTTP status of every error code. Total: a new code does not compile until it is mapped here. */
import type { ErrorCode } from '../core/errors.js';

export const ERROR_STATUS: Readonly<Record<ErrorCode, number>> = Object.freeze({
  WRONG_USAGE: 400,
  BAD_SITE_FILE: 422,
  BAD_REQUEST: 400,
  BAD_MESSAGE: 400,
  OUT_OF_DOMAIN: 422,
  TOO_FEW_SAMPLES: 422,
  NOT_FOUND: 404,
  CONFLICT: 409,
  LIMIT_EXCEEDED: 400,
  STORE_UNAVAILABLE: 503,
  BROKER_UNAVAILABLE: 503,
  RECEIVER_UNAVAILABLE: 503,
  LISTEN_REFUSED: 500,
  UNAUTHORISED: 401,
  FORBIDDEN: 403,
  TOO_MANY_ATTEMPTS: 429,
  CHANGED_MEANWHILE: 412,
  VERSION_MISSING: 428,
});
