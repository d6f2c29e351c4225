/** Where in this page, or of the service, an event opens. */
import type { EventAnswer } from '../../api/types/series.js';
import type { WordKey } from '../../words/catalogue.js';

export interface Address {
  readonly href: string;
  readonly word: WordKey;
  /** A document of the service, which is no part of the page. */
  readonly leaves?: boolean;
}

/** Undefined where its sentence is all that there is. */
export function addressOf(bed: string, { about }: EventAnswer): Address | undefined {
  const { alarm, calibration, readiness, stock, filling, inspection } = about;
  if (alarm !== undefined) return { href: `/alarms/${encodeURIComponent(alarm)}`, word: 'series.openAlarm' };
  if (calibration !== undefined)
    return {
      href: `/api/calibrations/${encodeURIComponent(calibration)}/certificate`,
      ...{ word: 'series.openCertificate', leaves: true },
    };
  if ((readiness ?? stock ?? filling ?? inspection) !== undefined)
    return { href: `/api/beds/${bed}/season.html`, word: 'series.openSeason', leaves: true };
  return undefined;
}
