/** The HTTP edge over a real station: what a technician's program meets. */
import { DAY_ms } from '../../services/core/model/time.js';
import { BENCH_AT, minuteAt, siteWithShelf } from '../support/bench-work.js';
import { openStation } from '../support/station.js';
import { appOnStation } from './app-on-station.js';

export async function stationApp() {
  const station = openStation();
  station.load(siteWithShelf(), BENCH_AT - DAY_ms);
  station.station.refresh();
  let now = BENCH_AT;
  return {
    ...(await appOnStation(station, { now: () => now, startedAt: BENCH_AT })),
    goTo: (minute: number) => {
      now = minuteAt(minute);
    },
  };
}

export type StationApp = Awaited<ReturnType<typeof stationApp>>;
