/** The means of the last hours, kept as the hours themselves so that it can be told how much a mean of them rests on. */

/** Hourly values, the newest last; null is an hour without. */
export type Hours = (number | null)[];

/**
 * Kept values are rounded: 0.0001 is far below what a probe can tell, and short in a checkpoint. Adding 0 takes
 * the sign off a zero, which JSON would lose.
 */
export const toKept = (value: number): number => Math.round(value * 10_000) / 10_000 + 0;

/** Adds an hour and drops what is older than `length` hours. */
export function addHour(hours: Hours, value: number | undefined, length: number): void {
  hours.push(value === undefined ? null : toKept(value));
  if (hours.length > length) hours.splice(0, hours.length - length);
}

/** Mean of the hours that have a value, or undefined where these are fewer than `needed`. */
export function meanOf(hours: Hours, needed: number): number | undefined {
  let sum = 0;
  let count = 0;
  for (const value of hours) {
    if (value === null) continue;
    sum += value;
    count += 1;
  }
  return count >= needed ? sum / count : undefined;
}
