/** How exactly values are remembered: finer than any sensor tells, and short as text. */

export const TEN_THOUSANDTHS = 10_000;

/** A whole number of ten-thousandths of the unit. */
export const inTenThousandths = (value: number): number => Math.round(value * TEN_THOUSANDTHS);

/** The value as it is remembered. */
export const remembered = (value: number): number => inTenThousandths(value) / TEN_THOUSANDTHS;

/** Two significant digits, for the scatter of an hour. */
export const roughly = (value: number): number => Number(value.toPrecision(2));
