/** What the numbers and words that an alarm rests on are called; what this page has no word for as the service says it. */
import { surenessOf } from '../../core/alarms/how-sure.js';
import type { WhyItem } from '../api/types/alarm-story.js';
import { number } from '../words/numbers.js';
import { say, wordFor } from '../words/say.js';
import { dayAndTime } from '../words/times.js';

export interface Said {
  readonly text: string;
  /** Where that is not the language of the page. */
  readonly lang: 'en' | undefined;
}

const own = (text: string): Said => ({ text, lang: undefined });
const english = (text: string): Said => ({ text, lang: 'en' });

export function labelSaid({ name, label }: Pick<WhyItem, 'name' | 'label'>): Said {
  const word = wordFor('evidence', name);
  return word === undefined ? english(label) : own(word);
}

export function valueSaid({ name, value, unit, inWords }: WhyItem): Said {
  if (name === 'strength' && typeof value === 'number' && inWords !== null)
    return own(say(`evidence.strength-${surenessOf(value)}`));
  if (unit !== null) return own(measured(value, unit));
  const word = wordFor('evidence', `${name}-${value}`);
  if (word !== undefined) return own(word);
  // Ids of probes are of no language.
  return name === 'probe' ? own(String(value)) : english(inWords ?? String(value));
}

/** Units that are words. */
const UNITS: Readonly<Record<string, 'evidence.perDay_C' | 'evidence.perDay_RH' | 'evidence.degreeDaysOf'>> =
  {
    '°C/day': 'evidence.perDay_C',
    '%RH/day': 'evidence.perDay_RH',
    '°C days': 'evidence.degreeDaysOf',
  };

/** Digits that say something: more for small numbers. */
const plain = (value: number): string =>
  number(value, Number.isInteger(value) ? 0 : Math.abs(value) < 1 ? 2 : 1);

/** A number of the service with its unit; ratios have none. */
export function measured(value: number | string, unit: string | null): string {
  if (unit === 'time') return dayAndTime(value);
  if (typeof value === 'string') return value;
  const written = Math.abs(value) > 0 && Math.abs(value) < 0.01 ? String(value) : plain(value);
  if (unit === null || unit === '1' || unit === 'probes') return written;
  const known = Object.hasOwn(UNITS, unit) ? UNITS[unit] : undefined;
  return known === undefined ? `${written} ${unit}` : say(known, { value: written });
}
