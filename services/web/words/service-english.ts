/** Sentences of the service, which are in English, as people read them: its keys in words, its times by the site's clock. */
import { withDegrees } from '../../core/alarms/degrees.js';
import { wholeTime } from './times.js';

const TIME = /"?\b(\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d(?:\.\d+)?)?(?:Z|[+-]\d\d:\d\d))"?/g;

/** Times as clocks here show them. */
export const withTimes = (text: string): string =>
  text.replace(TIME, (whole, at: string) => (Number.isFinite(Date.parse(at)) ? wholeTime(at) : whole));

/** A sentence of the service that nobody typed a key for: advice, notes, what follows. */
export const asRead = (text: string): string => withTimes(withDegrees(text));

/** Where a key by itself would not be understood, or is one of several. */
const KEYS: Readonly<Record<string, string>> = {
  ...{ at: 'when', by: 'who', from: 'from when', x: 'along', y: 'across', of: 'the entry' },
  ...{ placements: 'place', courses: 'layer', steps: 'step', beds: 'bed', probes: 'probe', people: 'person' },
  ...{ groups: 'group', members: 'member', points: 'point', entries: 'entry', photos: 'picture' },
  ...{
    reach: 'way to reach',
    telling: 'how people are told',
    out: 'roots taken out',
    found: 'what was found',
  },
};

/** The longest first. */
const UNITS: readonly (readonly [ending: string, unit: string])[] = [
  ['_C_per_day', '°C a day'],
  ['_kg', 'kg'],
  ['_cm', 'cm'],
  ['_RH', '%RH'],
  ['_C', '°C'],
  ['_min', 'minutes'],
  ['_days', 'days'],
  ['_h', 'hours'],
  ['_pc', '%'],
];

function keyInWords(key: string): string {
  const known = Object.hasOwn(KEYS, key) ? KEYS[key] : undefined;
  if (known !== undefined) return known;
  const [ending = '', unit] = UNITS.find(([one]) => key.endsWith(one)) ?? [];
  const name = key
    .slice(0, key.length - ending.length)
    .replaceAll('_', ' ')
    .replace(/[a-z][A-Z]/g, ([low = '', high = '']) => `${low} ${high.toLowerCase()}`);
  return unit === undefined ? name : `${name}, in ${unit}`;
}

/** `probe.placements[0]`, `#/courses/1/roots`: counted from 1, as people do. */
function placeInWords(path: string): string {
  const words: string[] = [];
  for (const part of path.split(/[./[\]]+/).filter((one) => one !== '' && one !== '#')) {
    const last = words.pop();
    if (/^\d+$/.test(part) && last !== undefined) words.push(`${last} ${Number(part) + 1}`);
    else words.push(...(last === undefined ? [] : [last]), keyInWords(part));
  }
  return words.join(', ');
}

const NOT_AS_DESCRIBED = /^(?:body|address) is not as described: /;
const PATH = /^(?:#|the document|(?:#\/)?[A-Za-z_]\w*(?:\[\d+\]|[./]\w+)*): (?=expected|unknown key)/;
const LONG_ID = / [0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}/g;
const POINT = /\bx (-?[\d.]+), y (-?[\d.]+), depth (-?[\d.]+) cm/g;

const EXPECTED: readonly (readonly [RegExp, string])[] = [
  [/expected integer\b/g, 'expected a whole number'],
  [/expected number\b/g, 'expected a number'],
  [/expected string\b/g, 'expected a text'],
  [/expected boolean\b/g, 'expected yes or no'],
  [
    /expected an RFC 3339 time with offset between 2000 and 2100, such as .*?(?=, got|$)/g,
    'expected a day and time',
  ],
];

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A refusal of the service. */
export function plainly(detail: string): string {
  const whole = detail.replace(NOT_AS_DESCRIBED, '');
  const path = PATH.exec(whole)?.[0] ?? '';
  const place = /^(?:#|the document): /.test(path) ? '' : placeInWords(path.slice(0, -2));
  const rest = EXPECTED.reduce((text, [from, to]) => text.replace(from, to), whole.slice(path.length))
    .replace(LONG_ID, '')
    .replace(POINT, '$1 cm along, $2 cm across, $3 cm deep');
  const said = place === '' ? rest : `${place}: ${rest}`;
  return asRead(path !== '' || said.startsWith('expected') ? capital(said) : said);
}
