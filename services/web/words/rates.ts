/** How often something happens, as people count it. */
import { number } from './numbers.js';
import { say } from './say.js';

/** Months of a bed after which nobody waits for it: more than all seasons of a station. Judgement. */
const NEVER_months = 1000;

/** @param rate false alarms a month in a bed, above 0 */
export function falseAlarms(rate: number): string {
  if (rate > 1) return say('parts.falseOften', { count: number(rate, 1) });
  const months = 1 / rate;
  return say(months >= NEVER_months ? 'parts.falseNever' : 'parts.falseOne', { months: number(months) });
}
