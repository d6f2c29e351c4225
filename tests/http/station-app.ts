/** The HTTP edge over a real station: what a technician's program meets. */
import type { FastifyInstance } from 'fastify';
import { DAY_ms } from '../../services/core/model/time.js';
import { createMetrics } from '../../services/http/index.js';
import { CoverageDesk } from '../../services/joining/coverage-desk.js';
import { createHealth } from '../../services/joining/health.js';
import { createPorts } from '../../services/joining/http-ports.js';
import { PlanDesk } from '../../services/joining/plan-desk.js';
import { BENCH_AT, minuteAt, siteWithShelf } from '../support/bench-work.js';
import { openStation } from '../support/station.js';
import { appOver } from './answers.js';

/** Counts how often what follows from a change is asked for. */
export interface Followed {
  woken: number;
  kicked: number;
}

export async function stationApp() {
  const station = openStation();
  station.load(siteWithShelf(), BENCH_AT - DAY_ms);
  station.station.refresh();
  let now = BENCH_AT;
  const followed: Followed = { woken: 0, kicked: 0 };
  const ports = createPorts({
    station: station.station,
    telling: { wake: () => (followed.woken += 1) } as never,
    catchUp: { kick: () => (followed.kicked += 1) } as never,
    desk: new CoverageDesk(),
    plans: new PlanDesk(),
    people: {} as never,
    metrics: createMetrics('0.1.0'),
    health: createHealth({
      ...{ station: station.station, registry: station.registry, version: '0.1.0', startedAt: BENCH_AT },
      ...{ collector: { failing: false } as never, now: () => now, newestArrivalAt: () => null },
      tellingProblems: () => [],
      broker: { kind: 'built-in', connected: () => true } as never,
    }),
    now: () => now,
  });
  const reported: unknown[] = [];
  const app: FastifyInstance = await appOver(ports, { report: (error) => void reported.push(error) });
  return {
    ...station,
    app,
    followed,
    /** Errors that were not the asker's doing: there must be none. */
    reported,
    goTo: (minute: number) => {
      now = minuteAt(minute);
    },
    post: (url: string, payload: unknown) => app.inject({ method: 'POST', url, payload: payload as object }),
    get: (url: string) => app.inject(url),
  };
}

export type StationApp = Awaited<ReturnType<typeof stationApp>>;
