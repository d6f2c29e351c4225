/** A C behind a number stands for degrees: short messages have no sign for them, the page has. */
const BARE_C = /(\d)[ \u00a0]C(?![\p{L}\d])/gu;

/** A text of the service as the page shows it, with °C in it. */
export const withDegrees = (text: string): string => text.replace(BARE_C, '$1 °C');
