/** Bounds of a run length. */
import { SandlarderError } from '../../errors.js';

/**
 * Observations. Beyond, the equations are too near to having no solution for half of the digits to be right; hourly
 * observations would take a million years.
 */
export const RUN_LENGTH_MOST = 1e10;

/** One observation at the least; what rounding takes off it is no error. */
const LEAST = 1 - 1e-9;

/** Whether the solution is a run length that its digits can be believed of. */
export const isRunLength = (value: number): boolean => value >= LEAST && value <= RUN_LENGTH_MOST;

/**
 * The run length itself, once it is known to be one.
 *
 * @throws SandlarderError LIMIT_EXCEEDED unless it is in [1, 1e10]
 */
export function requireRunLength(value: number): number {
  if (isRunLength(value)) return value;
  throw new SandlarderError(
    'LIMIT_EXCEEDED',
    `run length: expected 1 to ${RUN_LENGTH_MOST} observations, got ${value}: the limits are too wide to tell`,
  );
}
