/** Totals as lines for people: plain ASCII, at most a hundred characters wide. */
import type { Group, Groups } from './groups.js';
import { shareOf } from './middle.js';
import type { Placing } from './placings.js';
import type { RuleTotal } from './rule-totals.js';
import type { Totals } from './totals.js';
import { wrap } from './wrap.js';

const text = (value: number | null, digits = 0): string => (value === null ? '-' : value.toFixed(digits));
const part = (some: number, all: number): string => (all > 0 ? `${some}/${all}` : '-');
const share = (value: number | null): string => (value === null ? '-' : `${Math.round(value * 100)} %`);

const COLUMNS = [
  ['found', (t: Totals) => part(t.found, t.rots)],
  ['days', (t: Totals) => text(t.fromOnset_days, 1)],
  ['h', (t: Totals) => text(t.fromKnowable_h)],
  ['hand', (t: Totals) => text(t.beforeHand_days, 1)],
  ['false', (t: Totals) => (t.soundMonths > 0 ? `${t.falseUnpack}/${t.soundMonths.toFixed(0)}` : '-')],
  ['check', (t: Totals) => `${t.falseCheck}`],
  ['cm', (t: Totals) => text(t.place.counted.first.error_cm)],
  ['4 d', (t: Totals) => text(t.place.counted.later.error_cm)],
  ['fault', (t: Totals) => part(t.recognised, t.faults)],
  ['wet h', (t: Totals) => waterCell(t.wettingsTold, t.wettings, t.wettingAfter_h, 1)],
  ['damp', (t: Totals) => waterCell(t.dampingsTold, t.dampings, t.dampingAfter_h, 0)],
] as const;

const NAME_width = 34;
const WIDTH = 6;

const waterCell = (told: number, all: number, after_h: number | null, digits: number): string =>
  all > 0 && told === 0 ? 'never' : text(after_h, digits);

const line = (name: string, cells: readonly string[]): string =>
  `${name.slice(0, NAME_width).padEnd(NAME_width)}${cells.map((cell) => cell.padStart(WIDTH)).join('')}`;

export const heading = (): string =>
  line(
    'scenario',
    COLUMNS.map(([name]) => name),
  );

export const row = (name: string, totals: Totals): string =>
  line(
    name,
    COLUMNS.map(([, of]) => of(totals)),
  );

export const LEGEND = wrap(
  'found: rots told as "unpack" of those planted; days: from their onset; h: from when the true excess at the nearest probe passed 0.5 C, negative before; hand: days before the two-weekly hand; false: calls to "unpack" / months of a sound bed; check: calls to look at one; cm, 4 d: how far off the place was, and four days later (four probes or more); fault: faults of probes recognised, within 3 days, spikes within 7, drifts within 21; wet h: from a wet front reaching a probe to its alarm; damp: hours from 97 % having lasted 3 days to its alarm, negative before. Medians.',
);

const foundText = ({ rots, found, fromKnowable_h, slowest_h }: Group): string =>
  `${found}/${rots} found (${share(shareOf(found, rots))}), ${text(fromKnowable_h)} h after 0.5 C (slowest ${text(slowest_h)})`;

const groupText = (name: string, { counted, all }: Groups): string[] =>
  all.rots > 0
    ? [
        `${name}: late readings and a missing shade probe apart ${foundText(counted)}; with them ${foundText(all)}.`,
      ]
    : [];

const placedText = ({ alarms, first, later }: Placing): string =>
  `(${alarms} alarms): ${text(first.error_cm)} cm off, radius ${text(first.radius_cm)} cm, inside it ${share(first.covered)}; four days later ${text(later.error_cm)} cm off, radius ${text(later.radius_cm)} cm, inside it ${share(later.covered)}.`;

const placeText = ({ place: { counted, all } }: Totals): string[] => [
  ...(counted.alarms > 0 ? [`Place, beds with four probes or more ${placedText(counted)}`] : []),
  ...(all.alarms > counted.alarms ? [`Place, all beds ${placedText(all)}`] : []),
];

function faultText(t: Totals): string[] {
  if (t.faults === 0) return [];
  const missed = Object.entries(t.faultKinds)
    .filter(([, { planted, recognised }]) => recognised < planted)
    .map(([kind, { planted, recognised }]) => `${kind} ${planted - recognised}/${planted}`);
  return [
    `Faults of probes: ${t.recognised}/${t.faults} recognised in time, ${t.faultsToldAsRot} told as rot; false "unpack" beside any of them ${t.unpackInFault}.${missed.length > 0 ? ` Not recognised: ${missed.join(', ')}.` : ''}`,
  ];
}

const waterText = (t: Totals): string[] => [
  ...(t.wettings > 0
    ? [
        `Wet fronts: ${t.wettingsTold}/${t.wettings} told, the slowest after ${text(t.slowestWetting_h, 1)} h.`,
      ]
    : []),
  ...(t.dampings > 0 ? [`Slow damping: ${t.dampingsTold}/${t.dampings} told.`] : []),
];

/** What the whole run comes to, in sentences. */
export const summaryLines = (t: Totals): string[] =>
  [
    `In ${text(t.soundMonths)} sound bed-months: ${t.falseUnpack} false "unpack" (${text(t.falseUnpack_per_100_months, 1)} in 100), ${t.falseCheck} false "check" (${text(t.falseCheck_per_100_months, 1)} in 100).`,
    ...groupText('1.5 W or more within 30 cm', t.near),
    ...groupText('1.5 W or more, 30 to 50 cm away', t.far),
    ...placeText(t),
    ...faultText(t),
    ...waterText(t),
    `Other false alarms in ${text(t.months)} bed-months: probe ${t.falseFault}, wetting ${t.falseWetting}, damp "unpack" ${t.falseDamp}.`,
  ].flatMap((sentence) => wrap(sentence, '  '));

export const RULES_LEGEND = wrap(
  'Simple rules on the same readings, limits chosen afterwards in their favour at no more than 2 false alarms in 100 sound bed-months (the hand finds what is older than 2 days and above 1 W: judgement):',
);

const RULE_width = 30;

const ruleLine = (cells: readonly string[]): string =>
  `${(cells[0] ?? '').padEnd(RULE_width)}${cells
    .slice(1)
    .map((cell) => cell.padStart(10))
    .join('')}`;

export const ruleHeading = (): string => ruleLine(['rule', 'above', 'found', 'days', 'false/100']);

export const ruleRow = (total: RuleTotal): string =>
  ruleLine([
    total.rule,
    total.limit_C === null ? '' : `${total.limit_C.toFixed(1)} C`,
    part(total.found, total.rots),
    text(total.fromOnset_days, 1),
    text(total.false_per_100_months, 1),
  ]);
