/** An alarm's own text and its place, in a language that was asked for. */
import type { Alarm } from '../../model/alarm.js';
import { placeInWords } from '../place-in-words.js';
import type { NamedBed } from '../text.js';
import type { Language } from './catalogue.js';
import { CATALOGUES } from './languages.js';
import { placesSaid } from './place.js';
import { shortMessage } from './short-message.js';

export interface Said {
  readonly text: string;
  readonly language: Language;
  /** No native speaker has read its words. */
  readonly draft: boolean;
}

const saidIn = (language: Language, text: string): Said => ({
  ...{ text, language },
  draft: !CATALOGUES[language].nativeReviewed,
});

/**
 * The text of an alarm: in English as it was written down when it was raised.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a place that is none
 */
export function alarmSaid(
  alarm: Pick<
    Alarm,
    'kind' | 'action' | 'subject' | 'evidence' | 'place' | 'raisedAt' | 'clearedAt' | 'text'
  >,
  bed: NamedBed,
  language: Language,
): Said {
  if (language === 'en') return saidIn(language, alarm.text);
  return saidIn(language, shortMessage('raised', alarm, bed, { language }).text);
}

/** Where to dig; null for an alarm without a place. @throws SandlarderError OUT_OF_DOMAIN for a place that is none */
export function placeSaid({ place }: Pick<Alarm, 'place'>, bed: NamedBed, language: Language): Said | null {
  if (place === null) return null;
  const [text = ''] =
    language === 'en'
      ? placeInWords(place, bed.steps).lines
      : placesSaid(CATALOGUES[language], place, bed.steps);
  return saidIn(language, text);
}
