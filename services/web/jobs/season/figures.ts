/** Figures of a season in words. */
import type { SeasonOfBed } from '../../api/types/season.js';
import { celsius, number } from '../../words/numbers.js';
import { say, wordFor } from '../../words/say.js';
import { percent, shareInWords } from '../stock/bands.js';

export const countInWords = (roots: number | null): string =>
  roots === null ? say('parts.unknown') : number(roots);

export function keptInWords({ kept_days, emptied, filled }: SeasonOfBed): string {
  const days = Math.round(kept_days);
  if (emptied) return say('season.keptUntilEmpty', { days });
  return filled === null ? say('season.kept', { days }) : say('season.keptSoFar', { days });
}

export function notLostInWords(notLost: SeasonOfBed['notLost']): string {
  if (notLost === null) return say('season.notCounted');
  const { share, low, high } = notLost;
  return low === null || high === null
    ? say('season.notSure', { share: percent(share) })
    : shareInWords({ share, low, high });
}

export function sproutsInWords(sprouts: SeasonOfBed['sprouts']): string {
  if (sprouts === null) return say('season.noSprouts');
  return say('season.sprouts', {
    ...{ after: Math.round(sprouts.foundAfter), before: Math.round(sprouts.notAfter) },
  });
}

export const meanInWords = (warmth: SeasonOfBed['warmth']): string =>
  warmth === null ? say('parts.unknown') : celsius(warmth.mean_C);

export const alarmWord = (kind: string): string => wordFor('raised', kind) ?? kind;
export const foundWord = (found: string | null): string =>
  found === null ? say('parts.unknown') : (wordFor('verdicts', found) ?? found);
