/** Pieces of the sentences that say why something was set aside. */

/** Longest quotation of what came, characters: a sentence stays readable whatever was sent. */
const LONGEST_QUOTE = 80;

/** What came: plain values as JSON, shortened; of lists and objects only that they are (they may nest deeper than any writer can follow). */
export function clip(value: unknown): string {
  if (typeof value === 'string') {
    const text = JSON.stringify(value.slice(0, LONGEST_QUOTE));
    return value.length > LONGEST_QUOTE ? `${text}…` : text;
  }
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (value === undefined) return 'nothing';
  return typeof value === 'object' && value !== null ? 'an object' : String(value);
}

/** RFC 3339 text, or the bare number where it is no time that a date can hold. */
export function sayTime(time: number): string {
  const date = new Date(time);
  return Number.isNaN(date.getTime()) ? `${time} ms` : date.toISOString();
}
