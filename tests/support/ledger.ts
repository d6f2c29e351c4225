/** The HTTP edge over a real station with two beds to be filled, at a clock that a test sets. */
import { DAY_ms, formatTime } from '../../services/core/model/time.js';
import { appOnStation } from '../http/app-on-station.js';
import { openStation } from './station.js';

/** When the bed is filled in these tests. */
export const FILLED_AT = Date.UTC(2026, 4, 4, 8);

/** Text of a time so many days after the filling. */
export const day = (days: number): string => formatTime(FILLED_AT + days * DAY_ms);

export const uuid = (last: number): string => `00000000-0000-4000-8000-${String(last).padStart(12, '0')}`;

const STEPS = [
  { length: 150, width: 100, height: 25 },
  { length: 150, width: 60, height: 25 },
];

export const ledgerSite = (bed: object = {}, placements: readonly object[] = []) => ({
  version: 1,
  site: { id: 'test-ridge', name: 'Test ridge', timezone: 'Africa/Lusaka' },
  beds: [
    { id: 'pit-t', name: 'Pit T', kind: 'stepped-pit', steps: STEPS, ...bed },
    { id: 'box-t', name: 'Box T', kind: 'box', steps: [{ length: 100, width: 60, height: 60 }] },
  ],
  probes: [
    { id: 'p01', placements },
    { id: 'p02', placements: [] },
    { id: 'p09', placements: [{ ambient: true, from: day(-30) }] },
  ],
});

export async function ledgerApp({
  site = ledgerSite() as unknown,
  directory = undefined as string | undefined,
} = {}) {
  let now = FILLED_AT + DAY_ms;
  const station = openStation({ now: () => now, ...(directory !== undefined && { directory }) });
  station.load(site, FILLED_AT - DAY_ms);
  station.station.refresh();
  return {
    ...(await appOnStation(station, { now: () => now, startedAt: FILLED_AT })),
    /** Sets the clock, in days after the filling. */
    goTo: (days: number) => {
      now = FILLED_AT + days * DAY_ms;
    },
  };
}

export type LedgerApp = Awaited<ReturnType<typeof ledgerApp>>;

export const filling = (last: number, change: object = {}) => ({
  ...{ id: uuid(last), at: day(0), by: 'Wanja' },
  courses: [{ roots: 200 }, { roots: 150 }],
  ...change,
});

export const look = (last: number, change: object = {}) => ({
  ...{ id: uuid(last), at: day(5), by: 'Wanja', opened: true, repacked: false, found: ['nothing'] },
  ...change,
});

export const entry = (last: number, change: object = {}) => ({
  ...{ id: uuid(last), at: day(3), by: 'Wanja', kind: 'out', reason: 'eaten', roots: 20 },
  ...change,
});
