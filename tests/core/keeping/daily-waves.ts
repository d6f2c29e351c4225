/** Hourly means to judge swings by. */

/** A wave on a drift, warmest at an hour of the day. */
export const wave = (amplitude_C: number, warmest_h: number, hours = 36, drift_C = 0.5): number[] =>
  Array.from(
    { length: hours },
    (_, hour) => 22 + (drift_C * hour) / 24 + amplitude_C * Math.cos((2 * Math.PI * (hour - warmest_h)) / 24),
  );

/** Scatter of a probe, the same at each call: a fixed pattern without a wave of a day in it. */
export const scattered = (values: readonly number[], by_C: number): number[] =>
  values.map((value, hour) => value + by_C * Math.cos(2.7 * hour));
