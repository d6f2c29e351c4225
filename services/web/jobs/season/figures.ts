/** Figures of a season in words. */
import type { SeasonOfBed } from '../../api/types/season.js';
import { celsius, kilograms, number } from '../../words/numbers.js';
import { say, wordFor } from '../../words/say.js';
import { percent, shareInWords } from '../stock/bands.js';

export const countInWords = (roots: number | null): string =>
  roots === null ? say('parts.unknown') : number(roots);

/** What was not written down at the bed, but stands in its description, says so. */
export function wentInInWords({ filled, filledBy }: SeasonOfBed): string {
  if (filled === null || filledBy !== 'description') return countInWords(filled);
  return say('season.asDescribed', { roots: filled });
}

export const massInInWords = ({ filledMass_kg }: SeasonOfBed): string =>
  filledMass_kg === null ? say('parts.unknown') : kilograms(filledMass_kg, 1);

export function keptInWords({ kept_days, emptied, left }: SeasonOfBed): string {
  const days = Math.round(kept_days);
  if (emptied) return say('season.keptUntilEmpty', { days });
  return left === null ? say('season.kept', { days }) : say('season.keptSoFar', { days });
}

export function notLostInWords(notLost: SeasonOfBed['notLost']): string {
  if (notLost === null) return say('season.notCounted');
  const { share, low, high } = notLost;
  return low === null || high === null
    ? say('season.notSure', { share: percent(share) })
    : shareInWords({ share, low, high });
}

export function sproutsInWords({ sprouts, opened }: SeasonOfBed): string {
  if (sprouts === null) return say(opened === 0 ? 'season.sproutsUnknown' : 'season.noSprouts');
  return say('season.sprouts', {
    ...{ after: Math.round(sprouts.foundAfter), before: Math.round(sprouts.notAfter) },
  });
}

export const meanInWords = (warmth: SeasonOfBed['warmth']): string =>
  warmth === null ? say('parts.unknown') : celsius(warmth.mean_C);

export const alarmWord = (kind: string): string => wordFor('raised', kind) ?? kind;
export const foundWord = (found: string | null): string =>
  found === null ? say('parts.unknown') : (wordFor('verdicts', found) ?? found);
