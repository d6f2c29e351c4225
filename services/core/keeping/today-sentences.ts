/** One sentence for each thing that needs a person: in a language where its catalogue has the words, else in English. */
import { CATALOGUES, rotLeftSaid, shortMessage } from '../alarms/languages/index.js';
import type { NamedBed } from '../alarms/text.js';
import type { Alarm } from '../model/alarm.js';
import type { Language } from '../model/languages.js';
import type { LookReason } from './looks-due.js';
import type { TodayReadiness, TodaySaid } from './today.js';

export type TodaySentences = ReturnType<typeof todaySentences>;

/** Every catalogue's words for the usual look name it so. */
const TWO_WEEKS_days = 14;

/** What a look is due by, as an alarm that asks for one says it. */
function becauseOf(by: LookReason['by'], inspectEvery_days: number): string {
  if (by === 'rule') return inspectEvery_days === TWO_WEEKS_days ? 'two-weeks' : 'interval';
  return by;
}

/** @param language asked for */
export function todaySentences(language: Language) {
  const inLanguage = (text: string): TodaySaid => ({ text, language });
  const inEnglish = (text: string): TodaySaid => ({ text, language: 'en' });
  return {
    language,
    /** Whether a speaker of the language has read its words. */
    nativeReviewed: CATALOGUES[language].nativeReviewed,
    /** English has a longer line of its own, which is that of the alarm everywhere else. */
    alarm: (alarm: Alarm, bed: NamedBed): TodaySaid =>
      inLanguage(language === 'en' ? alarm.text : shortMessage('raised', alarm, bed, { language }).text),
    look: (by: LookReason['by'], inspectEvery_days: number, bed: NamedBed): TodaySaid => {
      const evidence = { because: becauseOf(by, inspectEvery_days) };
      const asking = { kind: 'inspection-due', action: 'check', subject: '', evidence, place: null } as const;
      return inLanguage(shortMessage('raised', asking, bed, { language }).text);
    },
    rotLeft: (at: number, bed: NamedBed): TodaySaid => inLanguage(rotLeftSaid(at, bed, language).text),
    problem: (problem: string): TodaySaid => inEnglish(`The service itself: ${problem}.`),
    readiness: (readiness: TodayReadiness, { name }: NamedBed): TodaySaid =>
      inEnglish(`${name}: ${readinessSaid(readiness)}`),
    calibration: (probe: string, quantity: 'temperature' | 'humidity'): TodaySaid =>
      inEnglish(`Probe ${probe}: its ${quantity} is due for calibration.`),
    unknownProbe: (probe: string, site: string): TodaySaid =>
      inEnglish(
        `Probe ${probe} sends readings to ${site}, and no description knows it: say where it stands.`,
      ),
  };
}

function readinessSaid({ verdict, overridden, notMet, unknown }: TodayReadiness): string {
  if (verdict === 'ready') return 'ready to be filled. Write down what went in once it is.';
  if (overridden) return 'is to be filled all the same. Write down what went in once it is.';
  const parts = [
    ...(notMet > 0 ? [`${notMet} ${notMet === 1 ? 'point is' : 'points are'} not met`] : []),
    ...(unknown > 0 ? [`${unknown} ${unknown === 1 ? 'is' : 'are'} not known`] : []),
  ];
  return `not ready to be filled: ${parts.join(', ')}.`;
}
