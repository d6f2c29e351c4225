/** The day of a site's calendar on which a time falls. */
import { DAY_ms } from '../model/time.js';
import { localClock } from './duty/index.js';

/**
 * @param time ms since the epoch
 * @param timeZone IANA name; UTC where null
 * @returns ms at which that day begins in UTC, so that its fields in UTC are those of the site's calendar
 * @throws SandlarderError OUT_OF_DOMAIN for a zone that the runtime does not know
 */
export const localDay = (time: number, timeZone: string | null): number =>
  localClock(timeZone ?? 'UTC').dayOf(time) * DAY_ms;
