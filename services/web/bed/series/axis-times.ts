/** What stands under a time axis, in the site's zone: days, or clock times within a day. */
import UPlot from 'uplot';
import { locale } from '../../words/language.js';
import { clockTime, dayAndMonth, zoneNow } from '../../words/times.js';
import { DAY_ms, HOUR_ms } from './span.js';

/** Offsets of zones change at whole hours; working one out takes far longer than looking it up. */
const offsets = new Map<number, number>();
const texts = new Map<string, string>();
let zone = '';

/** As many as a long way through a season needs. */
const MOST = 5_000;

/** The time as a date whose fields are those of the site's clock. @param at ms */
export function siteDate(at: number): Date {
  if (zone !== zoneNow() || offsets.size > MOST || texts.size > MOST) {
    zone = zoneNow();
    offsets.clear();
    texts.clear();
  }
  const hour = Math.floor(at / HOUR_ms) * HOUR_ms;
  const offset = offsets.get(hour) ?? UPlot.tzDate(new Date(hour), zone).getTime() - hour;
  offsets.set(hour, offset);
  return new Date(at + offset);
}

/** @param step between two of them, ms */
export function tickOf(at: number, step: number): string {
  const date = siteDate(at);
  const isDay = step >= DAY_ms || (date.getHours() === 0 && date.getMinutes() === 0);
  const id = `${locale()} ${isDay} ${at}`;
  const text = texts.get(id) ?? (isDay ? dayAndMonth(at) : clockTime(at));
  texts.set(id, text);
  return text;
}
