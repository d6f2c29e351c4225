/** What an alarm rests on, said so that a person can read it. */
import type { Evidence } from '../model/alarm.js';
import { asTime } from './evidence-values.js';
import { sureInWords } from './how-sure.js';
import { knownFault } from './probe-faults.js';

/** At most two decimals, or two digits where it is under 1: more than any probe here can tell. */
function numberInWords(value: number): string {
  return String(Number(Math.abs(value) >= 1 ? value.toFixed(2) : value.toPrecision(2)));
}

const rateInWords = (rate_C_per_day: number): string =>
  `${rate_C_per_day < 0 ? 'falling' : 'rising'} by ${numberInWords(Math.abs(rate_C_per_day))} °C a day`;

const excessInWords = (excess_C: number): string =>
  `${numberInWords(Math.abs(excess_C))} °C ${excess_C < 0 ? 'colder' : 'warmer'} than a sound bed`;

/** By name of the value; the unit is that in the name. Shares are fractions of 1. */
const NUMBERS: ReadonlyMap<string, (value: number) => string> = new Map([
  ['probes', (count) => `${count} ${count === 1 ? 'probe shows' : 'probes show'} it`],
  ['excess_C', excessInWords],
  ['rate_C_per_day', rateInWords],
  ['power_W', (power_W) => `a source of about ${numberInWords(power_W)} W`],
  [
    'strength',
    (ratio) => `${sureInWords(ratio)} (logarithm of the likelihood ratio ${numberInWords(ratio)})`,
  ],
  [
    'falseAlarms_per_bed_month',
    (rate) => `set for at most ${numberInWords(rate)} false alarms a month in a bed`,
  ],
  ['humidity_RH', (humidity_RH) => `humidity ${numberInWords(humidity_RH)} %`],
  // Written in mm²/s, since sand has 0.2 to 1 of them (de Vries 1963).
  ['diffusivity_m2_s', (m2_s) => `heat spreads at ${numberInWords(m2_s * 1e6)} mm² a second`],
  ['swingShare', (share) => `${numberInWords(share * 100)} % of the daily swing outside reaches it`],
  ['dewPoint_C', (dewPoint_C) => `dew point of the air ${numberInWords(dewPoint_C)} °C`],
  ['sand_C', (sand_C) => `sand at ${numberInWords(sand_C)} °C`],
  ['degreeDays', (sum) => `${numberInWords(sum)} degree-days so far`],
  [
    'drift_C',
    (drift_C) => `reads ${numberInWords(Math.abs(drift_C))} °C too ${drift_C < 0 ? 'low' : 'high'}`,
  ],
  ['held_h', (held_h) => `for ${numberInWords(held_h)} h`],
  ['threshold_C', (limit_C) => `limit ${numberInWords(limit_C)} °C`],
  ['threshold_C_per_day', (limit) => `limit ${numberInWords(limit)} °C a day`],
  ['threshold_RH', (limit_RH) => `limit ${numberInWords(limit_RH)} %`],
]);

const BECAUSE: ReadonlyMap<string, string> = new Map([
  ['two-weeks', 'two weeks since the last look are over'],
  ['warmth', 'a warm bed is looked at sooner'],
  ['sprouting', 'by its warmth sprouts are likely'],
  ['weevils', 'by its warmth grown weevils are likely'],
  ['asked', 'the readings look as if it was handled, and nothing is written down'],
]);

const CLASSES: readonly string[] = ['dry', 'damp', 'wet'];

/** Of the genus by its id; another word stands as it is. */
export function weevilInWords(species: string): string {
  const [genus, name, ...rest] = species.split('-');
  if (genus !== 'cylas' || !name || rest.length > 0) return `weevil ${species}`;
  return `sweet potato weevil, Cylas ${name}`;
}

/** Undefined for a word that is none of those known under the name. */
const WORDS: ReadonlyMap<string, (word: string) => string | undefined> = new Map([
  ['probe', (id) => `probe ${id}`],
  ['class', (name) => (CLASSES.includes(name) ? `the sand passes heat on like ${name} sand` : undefined)],
  ['species', weevilInWords],
  ['basis', (basis) => `judged by ${basis}`],
  ['because', (reason) => BECAUSE.get(reason)],
  ['fault', (name) => knownFault(name) && `it ${knownFault(name)?.shows}`],
]);

const TIMES: ReadonlyMap<string, (time: string) => string> = new Map([
  ['onsetAt', (time) => `it began about ${time}`],
  ['excessAt', (time) => `that was so on ${time}`],
  ['since', (time) => `since ${time}`],
  ['dueAt', (time) => `the look is due by ${time}`],
]);

/** How a time is written: by a clock that people have. */
export type WriteTime = (time: number) => string;

function knownItem(name: string, value: number | string, write: WriteTime): string | undefined {
  const time = TIMES.get(name);
  if (time) {
    const at = asTime(value);
    return at === undefined ? undefined : time(write(at));
  }
  if (typeof value === 'string') return value.trim() === '' ? undefined : WORDS.get(name)?.(value);
  return Number.isFinite(value) ? NUMBERS.get(name)?.(value) : undefined;
}

/** As it is; a time in ms as a clock has it. */
function rawItem(name: string, value: number | string, write: WriteTime): string {
  if (typeof value === 'string') return `${name}: ${value.trim() === '' ? 'unknown' : value}`;
  if (!Number.isFinite(value)) return `${name}: unknown`;
  const at = name.endsWith('At') ? asTime(value) : undefined;
  return `${name}: ${at === undefined ? value : write(at)}`;
}

/** One value in a few words; what has none here is shown by its name. */
export const evidenceItemInWords = (name: string, value: number | string, write: WriteTime): string =>
  knownItem(name, value, write) ?? rawItem(name, value, write);

/** A name of the service as keepers say it; null where it needs no other words. */
export function namedInWords(name: string, value: number | string): string | null {
  if (name === 'strength' && typeof value === 'number' && Number.isFinite(value)) return sureInWords(value);
  if (typeof value !== 'string') return null;
  if (name === 'species') return weevilInWords(value);
  return name === 'because' || name === 'fault' ? (WORDS.get(name)?.(value) ?? null) : null;
}

/**
 * `probe p01; 1.8 °C warmer than a sound bed; rising by 0.6 °C a day`, in the order of the evidence; empty where there
 * is none. What has no words here is shown by its name, never left out.
 */
export function evidenceInWords(evidence: Evidence, write: WriteTime): string {
  return Object.entries(evidence)
    .map(([name, value]) => evidenceItemInWords(name, value, write))
    .join('; ');
}
