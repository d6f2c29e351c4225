/** How the service is in tests of the HTTP edge alone. */
import { HOUR_ms } from '../../services/core/model/time.js';
import type { Health } from '../../services/http/ports.js';

/** 2026-06-01T10:30:00Z: the newest reading of pit-a. */
export const NEWEST_ms = Date.UTC(2026, 5, 1, 10, 30);

export const HEALTH: Health = {
  status: 'ok',
  problems: [],
  accepting: true,
  version: '0.1.0',
  startedAt: Date.UTC(2026, 4, 4, 8),
  broker: { kind: 'built-in', connected: true, refused: { connect: 0, publish: 0, subscribe: 0 } },
  newestReadingAt: NEWEST_ms + HOUR_ms,
  watchLag: {
    beds: 1,
    hours: 3,
    byBed: [
      { bed: 'pit-a', hours: 3 },
      { bed: 'box-b', hours: 0 },
    ],
  },
  outboxWaiting: 0,
  longArchive: null,
  olderReadings: null,
};
