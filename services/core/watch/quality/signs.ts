/**
 * Signs of a fault, each weak by itself: the times of the last few, told apart by a least distance so that one mishap
 * counts once.
 */
import { HOUR_ms } from '../../model/time.js';
import { QUALITY } from './limits.js';

/** Remembers a sign, unless it is part of the one before. */
export function addSign(signs: number[], at: number, apart_h: number): void {
  const last = signs.at(-1);
  if (last !== undefined && at - last < apart_h * HOUR_ms) return;
  signs.push(at);
  if (signs.length > QUALITY.signs) signs.shift();
}

/**
 * When the signs began, where there are enough of them within a time; undefined otherwise.
 *
 * @param needed at most `QUALITY.signs`: no more are remembered
 */
export function establishedSince(
  signs: readonly number[],
  now: number,
  within_h: number,
  needed: number = QUALITY.signs,
): number | undefined {
  const first = signs.at(-needed);
  if (first === undefined) return undefined;
  return now - first <= within_h * HOUR_ms ? first : undefined;
}
