/** Judged hours of a probe for a plot: bounded in number, with the least and the greatest excess kept. */
import type { HourSeries } from '../http/index.js';

interface JudgedHour {
  readonly hour: number;
  readonly expected: number | null;
  readonly band: number | null;
  readonly excess: number | null;
}

/**
 * All hours where they are no more than `most`, else of each of equal parts of the span those with the least and the
 * greatest excess, or the first where none has one.
 *
 * @param judged in order of time
 */
export function extremeHours(
  judged: readonly JudgedHour[],
  { from, to }: { readonly from: number; readonly to: number },
  most: number,
): readonly JudgedHour[] {
  if (judged.length <= most) return judged;
  const width = Math.max(1, (to - from) / Math.floor(most / 2));
  const parts = new Map<number, JudgedHour[]>();
  for (const hour of judged) {
    const part = Math.floor((Math.max(hour.hour, from) - from) / width);
    const known = parts.get(part);
    if (known) known.push(hour);
    else parts.set(part, [hour]);
  }
  return [...parts.values()].flatMap(extremesOf);
}

function extremesOf(hours: readonly JudgedHour[]): JudgedHour[] {
  const known = hours.filter(({ excess }) => excess !== null);
  const [first] = known.length > 0 ? known : hours;
  if (!first) return [];
  let [least, greatest] = [first, first];
  for (const hour of known) {
    if ((hour.excess as number) < (least.excess as number)) least = hour;
    if ((hour.excess as number) > (greatest.excess as number)) greatest = hour;
  }
  if (least === greatest) return [least];
  return least.hour < greatest.hour ? [least, greatest] : [greatest, least];
}

export const hourColumns = (hours: readonly JudgedHour[]): HourSeries => ({
  time: hours.map(({ hour }) => hour),
  expected_C: hours.map(({ expected }) => expected),
  band_C: hours.map(({ band }) => band),
  excess_C: hours.map(({ excess }) => excess),
});
