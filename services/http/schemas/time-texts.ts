/** Texts of many times in a row, as `formatTime` gives them: a plot has ten thousand, few of them of another day than the one before. */
import { DAY_ms, formatTime, HOUR_ms, MINUTE_ms } from '../../core/model/time.js';

const SECOND_ms = 1000;
const TWO_DIGITS = Array.from({ length: 60 }, (_, number) => String(number).padStart(2, '0'));

/** @param times ms */
export function timeTexts(times: readonly number[]): string[] {
  let day = Number.NaN;
  let date = '';
  return times.map((time) => {
    const begins = Math.floor(time / DAY_ms) * DAY_ms;
    const since = time - begins;
    if (since % SECOND_ms !== 0) return formatTime(time);
    if (begins !== day) [day, date] = [begins, formatTime(begins).slice(0, 'yyyy-mm-ddT'.length)];
    const [hour, minute] = [Math.floor(since / HOUR_ms), Math.floor((since % HOUR_ms) / MINUTE_ms)];
    const second = (since % MINUTE_ms) / SECOND_ms;
    return `${date}${TWO_DIGITS[hour]}:${TWO_DIGITS[minute]}:${TWO_DIGITS[second]}Z`;
  });
}
