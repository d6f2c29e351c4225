/** Numbers as a technician reads them. */

/** Three significant digits, without zeros at the end: 0.408, 6.29, 421. */
export const inDigits = (value: number): string => String(Number(value.toPrecision(3)));

/** A first letter as it begins a sentence. */
export const asSentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
