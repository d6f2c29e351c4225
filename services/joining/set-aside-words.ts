/** Why readings that can be read are set aside, in words: the same when they come and when it is only looked. */
import type { Quantity } from '../core/model/quantity.js';
import { formatTime } from '../core/model/time.js';

/** @param from when the probe was placed first, ms */
export const beforePlacement = (from: number, time: number): string =>
  `expected a time at or after the probe's first placement, ${formatTime(from)}, got ${formatTime(time)}`;

export const valueConflict = (quantity: Quantity, kept: number, refused: number, time: number): string =>
  `expected ${quantity} ${kept}, kept before for ${formatTime(time)}, got ${refused}`;

export const APART_FULL =
  'expected a probe that a site description knows: there is no room for more readings of unknown probes';
