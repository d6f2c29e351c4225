/**
 * A probe's clock, as far as its own times tell.
 *
 * Probes measure at a steady cadence. A clock that is set back lays new times between old ones: two regular rows in
 * the same hours, and those of the new row are wrong. A row that moves again and again is a restless clock or a probe
 * that restarts. What cannot be told from one probe's times: a clock that is set forward (it looks like a gap), one
 * set back by whole cadences (its times fall on old ones and are set aside on arrival), one that is wrong from the
 * first, and one set back by just half a cadence more (it looks like measuring twice as often). So a fault of the clock
 * that is over means that times are regular again, not that they are right.
 */
import {
  type ClockState,
  isTrusted,
  keep,
  keepsTo,
  learnCadence,
  type Row,
  rowOf,
  stray,
} from './cadence.js';
import { QUALITY } from './limits.js';
import { addSign } from './signs.js';

/** Rows of a probe that measures in halves are no sign: share of the cadence by which they may miss the half. */
const HALF_SHARE = 0.01;

/** Samples in a row that a moved row needs before it is taken for the row. */
const ALONE = 2;

const sign = ({ signs }: ClockState, at: number): void => addSign(signs, at, QUALITY.clockApart_h);

/** A time that does not keep to the row: whether it belongs to another one that runs beside it. */
function besideTheRow(clock: ClockState, at: number, { cadence, keptAt }: Row): boolean {
  const { beside } = clock;
  if (!beside || !keepsTo(at, beside.at, cadence)) {
    clock.beside = { at, alone: 0 };
    stray(clock);
    return false;
  }
  const both = keptAt > beside.at;
  const half = Math.abs((((at - keptAt) / cadence) % 1) - 0.5) <= HALF_SHARE;
  clock.beside = { at, alone: both ? 0 : beside.alone + 1 };
  const moved = clock.beside.alone >= ALONE;
  const told = isTrusted(clock) && (moved || (both && !half));
  if (told) sign(clock, at);
  if (moved) keep(clock, at);
  return told && !moved;
}

/**
 * Takes the time of the next sample.
 *
 * @param lastAt time of the sample before it, ms; undefined for the first
 * @returns whether the time is wrong
 */
export function isClockWrong(clock: ClockState, at: number, lastAt: number | undefined): boolean {
  if (lastAt === at) {
    sign(clock, at);
    return true;
  }
  if (lastAt !== undefined) learnCadence(clock, at - lastAt);
  const row = rowOf(clock, at);
  if (row && at !== row.keptAt && !keepsTo(at, row.keptAt, row.cadence)) return besideTheRow(clock, at, row);
  if (!row) clock.beside = null;
  keep(clock, at);
  return false;
}
