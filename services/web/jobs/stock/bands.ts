/** Bands in words: between 10 and 90 % of what is believed. */
import type { Band } from '../../api/types/outlook.js';
import type { Likely, Share } from '../../api/types/stock.js';
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';

/** Weeks of food; what is null lasts for more than a year. */
export function weeksInWords({ low, likely, high }: Likely): string {
  if (low === null) return say('stock.overYear');
  const weeks = number(likely ?? 52, 0);
  const values = { low: number(low, 0), high: number(high ?? 52, 0), likely: weeks };
  if (likely === null) return say('stock.weeksOrYear', values);
  return high === null ? say('stock.weeksToYear', values) : say('stock.weeks', values);
}

export const rootsInWords = ({ low, likely, high }: Likely | Band): string =>
  say('stock.rootsBand', {
    ...{ low: number(Math.floor(low ?? 0)), likely: number(Math.round(likely ?? 0)) },
    high: number(Math.ceil(high ?? 0)),
  });

/** A share, 0..1, in percent; a digit behind the point where it is small. */
export const percent = (share: number): string => number(100 * share, share > 0 && share < 0.1 ? 1 : 0);

export const shareInWords = ({ share, low, high }: Share): string =>
  say('stock.share', { share: percent(share), low: percent(low), high: percent(high) });
