/** How a season's report says things. */
import type { AlarmKind, Verdict } from '../model/alarm.js';
import type { InReason, StockOutReason } from '../model/stock.js';
import type { ShareInterval } from './loss-interval.js';
import type { LossCause } from './loss-look.js';
import type { SurvivalStep } from './loss-survival.js';
import type { SeasonFigures } from './season-report-figures.js';

/** For what is not known: a cell is never empty without saying so. */
export const UNKNOWN = 'not known';

export const STOCK_WORDS: Readonly<Record<InReason | StockOutReason, string>> = {
  filled: 'filled',
  added: 'added later',
  'put-back': 'put back',
  eaten: 'eaten',
  sold: 'sold',
  seed: 'kept for seed',
  fed: 'fed to animals',
  thrown: 'thrown away',
  missing: 'missing',
};

export const CAUSE_WORDS: Readonly<Record<LossCause, string>> = {
  rot: 'rot',
  weevils: 'weevils',
  rodents: 'rats and mice',
  termites: 'termites',
};

export const ALARM_WORDS: Readonly<Record<AlarmKind, string>> = {
  heating: 'warmth',
  damp: 'damp',
  wetting: 'water',
  condensation: 'condensation',
  sprouting: 'sprouting expected',
  weevil: 'weevils expected',
  'probe-fault': 'probe at fault',
  'probe-silent': 'probe silent',
  'inspection-due': 'look due',
};

export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  right: 'found what it warned of',
  wrong: 'nothing was found',
  other: 'something else was found',
  unseen: 'nobody looked within a week',
  untold: 'opening the bed does not tell',
};

export const percentOf = (share: number): string => `${Number((100 * share).toFixed(1))} %`;

/** `7.5 % (2.6 to 19.9 %)`. */
export const intervalInWords = ({ share, low, high }: ShareInterval): string =>
  `${percentOf(share)} (${Number((100 * low).toFixed(1))} to ${percentOf(high)})`;

export function survivalInWords(step: SurvivalStep | null): string {
  if (step === null) return `${UNKNOWN}: no roots were counted`;
  const { survival: share, low, high } = step;
  return low === null || high === null
    ? `${percentOf(share)}; too little was lost, or left, to say how sure that is`
    : intervalInWords({ share, low, high });
}

export const degrees = (value_C: number): string => `${value_C.toFixed(1)} °C`;

export const massInWords = (mass_kg: number | null): string =>
  mass_kg === null ? UNKNOWN : `${Number(mass_kg.toFixed(1))} kg`;

export const daysInWords = (days: number): string => `${Math.round(days)} days`;

/** `400 (as the bed is described)`: what was not written down at the bed itself says so. */
export function rootsInWords({ filled, filledBy }: SeasonFigures): string {
  if (filled === null) return UNKNOWN;
  return filledBy === 'description' ? `${filled} (as the bed is described)` : String(filled);
}

/** Where nobody wrote down what went in or came out. */
export const NOT_KEPT: readonly (readonly [label: string, text: string])[] = [
  ['Roots that came out', `${UNKNOWN}: nobody wrote down what went in or came out`],
  [
    'To have it counted',
    'write down the filling, then what comes out: Fill and Stock of the bed on the page, or the commands fill and stock',
  ],
];

/** Sprouts came some time between two looks. */
export function sproutsInWords({ sprouts, opened }: SeasonFigures): string {
  if (sprouts === null) return opened === 0 ? `${UNKNOWN}: nobody looked into the bed` : 'none found';
  return `found after ${daysInWords(sprouts.foundAfter)}; they came between day ${Math.round(sprouts.notAfter)} and then`;
}
