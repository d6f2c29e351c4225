/** What an alarm rests on, said so that a person can read it. */
import type { Evidence } from '../model/alarm.js';
import { formatTime } from '../model/time.js';

/** Ending of a name, and the unit as it is said. */
const UNITS: readonly (readonly [string, string])[] = [
  ['_C_per_day', ' C per day'],
  ['_RH', ' %'],
  ['_EL', ' %'],
  ['_kg', ' kg'],
  ['_cm', ' cm'],
  ['_C', ' C'],
  ['_V', ' V'],
  ['_h', ' h'],
];

/** `insideAir` and `inside_air` both read "inside air". */
function wordsOf(name: string): string {
  return name
    .replaceAll('_', ' ')
    .replace(/([a-z])([A-Z])/g, (_, before: string, after: string) => `${before} ${after.toLowerCase()}`)
    .trim();
}

/** At most two decimals: more than any probe here can tell. */
function numberInWords(value: number): string {
  return String(Number(value.toFixed(2)));
}

/** Ending of the name of an event time in ms; the outside has times as text. */
const TIME = 'At';

function itemInWords(name: string, value: number | string): string {
  if (typeof value === 'string') return `${wordsOf(name)} ${value}`;
  if (!Number.isFinite(value)) return `${wordsOf(name)} unknown`;
  if (name.endsWith(TIME)) return `${wordsOf(name.slice(0, -TIME.length))} at ${formatTime(value)}`;
  const unit = UNITS.find(([ending]) => name.endsWith(ending));
  if (!unit) return `${wordsOf(name)} ${numberInWords(value)}`;
  return `${wordsOf(name.slice(0, -unit[0].length))} ${numberInWords(value)}${unit[1]}`;
}

/** `probe p01; excess 1.8 C; rate 0.6 C per day`; empty where there is no evidence. */
export function evidenceInWords(evidence: Evidence): string {
  return Object.entries(evidence)
    .map(([name, value]) => itemInWords(name, value))
    .join('; ');
}
