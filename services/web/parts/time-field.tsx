/** When something was done: a day and a clock time of the site. */
import { say } from '../words/say.js';
import { zoneNow } from '../words/times.js';
import { zonedText, zonedTime } from '../words/zoned.js';
import { TextField } from './field.js';

interface TimeParts {
  readonly label: string;
  /** `2026-05-04T10:00`, as typed; begin with `timeNow()`. */
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly wrong?: string | undefined;
  /** What is to be known of the time that stands in it. */
  readonly note?: string | undefined;
}

export const TimeField = ({ note, ...parts }: TimeParts) => (
  <TextField
    {...parts}
    type="datetime-local"
    required
    hint={[note, say('parts.timeHint', { zone: zoneNow() })].filter(Boolean).join(' ')}
  />
);

/** Now, as such a field has it. Wall clock. */
export const timeNow = (): string => zonedText(Date.now());

const MINUTE_ms = 60_000;

/**
 * A field holds whole minutes: of the minute in which the bed was filled, what came after is meant.
 *
 * @param time ISO 8601
 * @param filled the same; null where nobody knows
 */
export function notBefore(time: string, filled: string | null): string {
  const early_ms = filled === null ? 0 : Date.parse(filled) - Date.parse(time);
  return filled !== null && early_ms > 0 && early_ms < MINUTE_ms ? filled : time;
}

/** What the service takes for a typed time; undefined where it is none. */
export function typedTime(text: string): string | undefined {
  const time = zonedTime(text);
  return time === text ? undefined : time;
}
