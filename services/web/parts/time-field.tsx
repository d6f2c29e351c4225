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
}

export const TimeField = (parts: TimeParts) => (
  <TextField {...parts} type="datetime-local" required hint={say('parts.timeHint', { zone: zoneNow() })} />
);

/** Now, as such a field has it. Wall clock. */
export const timeNow = (): string => zonedText(Date.now());

/** What the service takes for a typed time; undefined where it is none. */
export function typedTime(text: string): string | undefined {
  const time = zonedTime(text);
  return time === text ? undefined : time;
}
