/** Readings are taken, and beds opened and closed, at whole tens of minutes. */
export const TICK_s = 600;
export const TICKS_AN_HOUR = 3600 / TICK_s;
export const TICKS_A_DAY = 24 * TICKS_AN_HOUR;

/** The tick nearest to a day with its time. */
export const tickOf = (day: number): number => Math.round(day * TICKS_A_DAY);
