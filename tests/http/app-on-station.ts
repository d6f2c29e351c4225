/** The HTTP edge over a station of a test, which counts what follows from a change instead of doing it. */
import { portsOnStation } from '../support/ports-on-station.js';
import type { TestStation } from '../support/station.js';
import { appOver } from './answers.js';

interface Clock {
  /** Wall clock, ms. */
  readonly now: () => number;
  /** ms. */
  readonly startedAt: number;
}

export async function appOnStation(station: TestStation, { now, startedAt }: Clock) {
  const followed = { woken: 0, planned: 0, kicked: 0 };
  const ports = portsOnStation(station, {
    ...{ now, startedAt },
    telling: { wake: () => (followed.woken += 1), plan: () => (followed.planned += 1) } as never,
    people: { ways: () => [] } as never,
    catchUp: { kick: () => (followed.kicked += 1) } as never,
  });
  const reported: unknown[] = [];
  const app = await appOver(ports, { report: (error) => void reported.push(error) });
  return {
    ...station,
    app,
    /** How often what follows from a change was asked for. */
    followed,
    /** Errors that were not the asker's doing: there must be none. */
    reported,
    post: (url: string, payload: unknown) => app.inject({ method: 'POST', url, payload: payload as object }),
    put: (url: string, payload: unknown, headers: Record<string, string> = {}) =>
      app.inject({ method: 'PUT', url, payload: payload as object, headers }),
    get: (url: string) => app.inject(url),
  };
}
