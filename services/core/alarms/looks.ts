/** Why a bed is to be looked at, in words. */
import type { Evidence } from '../model/alarm.js';
import { timeOf, wordOf } from './evidence-values.js';
import { localDay } from './local-day.js';

const MONTHS = ['Jan', 'Feb', 'March', 'April', 'May', 'June', 'July', 'Aug', 'Sept', 'Oct', 'Nov', 'Dec'];

/** `24 May`, of the site's calendar. */
export function dayInWords(time: number, timeZone: string | null): string {
  const date = new Date(localDay(time, timeZone));
  return `${date.getUTCDate()} ${MONTHS[date.getUTCMonth()]}`;
}

/** When it was that something was done to the bed, as far as the readings tell. */
function aboutWhen(evidence: Evidence, timeZone: string | null): string {
  const time = timeOf(evidence, 'since') ?? timeOf(evidence, 'onsetAt');
  return time === undefined ? 'lately' : `about ${dayInWords(time, timeZone)}`;
}

/** The question that is asked when the readings look as if the bed was handled and nothing is written down. */
export function openedAboutInWords(evidence: Evidence, timeZone: string | null): string {
  return `was this bed opened or sand taken out ${aboutWhen(evidence, timeZone)}?`;
}

const DUE: ReadonlyMap<string, string> = new Map([
  ['two-weeks', 'time for the two-weekly look'],
  ['warmth', 'time to look inside, early because it is warm'],
  ['sprouting', 'time to look inside, sprouts are likely'],
  ['weevils', 'time to look inside, weevils are likely'],
]);

/** What makes a look due. Of handling nobody told, the matter that is asked about. */
export function dueInWords(evidence: Evidence, timeZone: string | null): string {
  const because = wordOf(evidence, 'because') ?? '';
  if (because === 'asked') return `was it opened ${aboutWhen(evidence, timeZone)}`;
  return DUE.get(because) ?? 'time to look inside';
}
