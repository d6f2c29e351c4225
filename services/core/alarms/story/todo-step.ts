/** One step of what to do about an alarm. */
import type { Episode, Place } from '../../model/alarm.js';
import type { Bed } from '../../model/site.js';
import { placeInWords } from '../place-in-words.js';
import type { NamedBed } from '../text.js';

export interface TodoStep {
  readonly text: string;
  /** What must be known before it is done. */
  readonly cautions: readonly string[];
}

export type ToldAlarm = Pick<Episode, 'kind' | 'action' | 'subject' | 'evidence' | 'place'>;
export type OpenedBed = NamedBed & Pick<Bed, 'kind'>;

export const step = (text: string, ...cautions: readonly string[]): TodoStep => ({ text, cautions });

/** `deep down in the middle of the bed, within about 15 cm`. */
export function whereInWords(place: Place | null, { steps }: OpenedBed, otherwise: string): string {
  if (place === null) return otherwise;
  const [sentence = otherwise] = placeInWords(place, steps).lines;
  return `${sentence}, within ${Math.round(place.radius)} cm of there`;
}
