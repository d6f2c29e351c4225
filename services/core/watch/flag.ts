/** Why the watch leaves a reading out. Readings stay as they came: a flag stands beside the reading, never in its place. */

/**
 * - `sensor-code`: a value by which a sensor says that it did not measure, such as -127 or 85 °C
 * - `out-of-range`: no sand or air is like that
 * - `spike`: far from what was measured before and after
 * - `impossible-rate`: a change quicker than sand allows
 * - `stuck`: the same value for so long that it is none
 * - `unsettled`: the probe had not yet come to the temperature of the sand
 * - `clock`: the time of the reading cannot be trusted
 */
export const FLAG_REASONS = [
  'sensor-code',
  'out-of-range',
  'spike',
  'impossible-rate',
  'stuck',
  'unsettled',
  'clock',
] as const;

export type FlagReason = (typeof FLAG_REASONS)[number];

/** Quantities that the watch looks at, and so may leave out. */
export const FLAGGED_QUANTITIES = ['temperature', 'humidity'] as const;

export type FlaggedQuantity = (typeof FLAGGED_QUANTITIES)[number];

/** One value of one probe that the watch does not use. */
export interface QualityFlag {
  /** Event time of the reading, ms. */
  readonly at: number;
  readonly quantity: FlaggedQuantity;
  readonly reason: FlagReason;
}
