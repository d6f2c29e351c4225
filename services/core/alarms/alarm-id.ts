/** The name of an alarm: the same episode gets the same name in every run, and no other episode gets it. */
import { SandlarderError } from '../errors.js';
import type { Episode } from '../model/alarm.js';
import { ID_PATTERN } from '../model/id.js';
import { EARLIEST_TIME_ms, formatTime, LATEST_TIME_ms } from '../model/time.js';

/** Characters at the most; the longest that ids and kinds allow is 142. */
export const ALARM_ID_LENGTH = 160;

/** Throws OUT_OF_DOMAIN unless the text is an id as the outside contract has it. */
export function requireId(name: string, id: string): void {
  if (!ID_PATTERN.test(id)) {
    throw new SandlarderError('OUT_OF_DOMAIN', `${name} must match ${ID_PATTERN}, got ${JSON.stringify(id)}`);
  }
}

/** ISO 8601 basic format in UTC, as it can stand in an address: `20260524T150000Z`. */
function compactTime(time: number): string {
  if (!(Number.isInteger(time) && time >= EARLIEST_TIME_ms && time < LATEST_TIME_ms)) {
    throw new SandlarderError('OUT_OF_DOMAIN', `raisedAt must be whole ms within 2000..2100, got ${time}`);
  }
  return formatTime(time).replaceAll('-', '').replaceAll(':', '');
}

/**
 * Names an alarm: `ridge-station.pit-a.heating.unpack.20260524T150000Z`; one that is about a probe names it before
 * the time: `ridge-station.pit-a.probe-fault.service.p03.20260524T150000Z`.
 *
 * Unique because at most one episode of a kind, action and subject is open in a bed at a time, because ids hold no
 * dot, and because no id looks like a time (it has no capital). Only characters that an address carries unescaped
 * (RFC 3986 section 2.3).
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a site, bed or subject that is no id, or a time outside 2000..2100
 */
export function alarmId(
  site: string,
  episode: Pick<Episode, 'bed' | 'kind' | 'action' | 'subject' | 'raisedAt'>,
): string {
  const { bed, kind, action, subject, raisedAt } = episode;
  requireId('site', site);
  requireId('bed', bed);
  if (subject !== '') requireId('subject', subject);
  return [site, bed, kind, action, ...(subject === '' ? [] : [subject]), compactTime(raisedAt)].join('.');
}
