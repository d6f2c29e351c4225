/** A bed by its id, and times that may be written down for it. */
import { SandlarderError } from '../core/errors.js';
import { fillingsInForce, isSameRecord } from '../core/keeping/index.js';
import { formatTime, MINUTE_ms } from '../core/model/time.js';
import type { KnownBed } from './directory.js';
import type { Station } from './station.js';

/** @throws SandlarderError NOT_FOUND */
export function knownBed(station: Station, id: string): KnownBed {
  const known = station.directory.beds.get(id);
  if (!known) throw new SandlarderError('NOT_FOUND', `no bed has the id "${id}"`);
  return known;
}

/** Clocks of people and of this machine differ by so much, ms. */
const AHEAD_ms = 10 * MINUTE_ms;

/**
 * @param time event time, ms
 * @param now wall clock, ms
 * @throws SandlarderError CONFLICT for a time that has not come
 */
export function requireCome(time: number, now: number, name = 'at'): void {
  if (!(time <= now + AHEAD_ms))
    throw new SandlarderError(
      'CONFLICT',
      `${name}: expected a time that has come, got ${formatTime(time)} while it is ${formatTime(now)} here`,
    );
}

/**
 * A record that is there already, and is sent again.
 *
 * @throws SandlarderError CONFLICT where it says something else
 */
export function requireSame<Kept extends { readonly id: string }>(before: Kept, arrived: Kept): Kept {
  if (!isSameRecord(before, arrived))
    throw new SandlarderError(
      'CONFLICT',
      `id: expected a new UUID, or the record that is there under it, got another one under ${before.id}`,
    );
  return before;
}

/** When the bed was filled last by a time, as described or as written down; undefined where it never was. ms. */
export function filledBy(station: Station, { bed }: KnownBed, at: number): number | undefined {
  const fillings = fillingsInForce(station.registry.fillings.ofBed(bed.id));
  const times = [bed.filled, ...fillings.map((filling) => filling.at)];
  const past = times.filter((time) => time !== undefined && time <= at) as number[];
  return past.length === 0 ? undefined : Math.max(...past);
}
