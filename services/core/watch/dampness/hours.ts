/** Hourly values of the past, the newest last; null is an hour without. */

export type Hours = (number | null)[];

/** A hundredth is below what a probe can tell, and short at rest. Adding 0 takes the sign off a zero. */
export const toHundredths = (value: number): number => Math.round(value * 100) / 100 + 0;

/** Adds an hour and drops what is older than `length`. */
export function addHour(hours: Hours, value: number | undefined, length: number): void {
  hours.push(value === undefined ? null : toHundredths(value));
  while (hours.length > length) hours.shift();
}

/** The values of the hours from `from` to `to` before the end, both counted back from the newest, which is 0. */
export function valuesBefore(hours: Readonly<Hours>, from: number, to: number): number[] {
  const values: number[] = [];
  for (let at = Math.max(0, hours.length - 1 - to); at < hours.length - from; at += 1) {
    const value = hours[at];
    if (typeof value === 'number') values.push(value);
  }
  return values;
}

/** The mean of an hour; undefined where there is none, or where it is no number. */
export function meanOfHour(summary: { readonly mean: number } | undefined): number | undefined {
  return summary && Number.isFinite(summary.mean) ? summary.mean : undefined;
}
