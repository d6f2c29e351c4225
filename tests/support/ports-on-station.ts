/** All that the HTTP edge asks for, over a station of a test. */
import { createMetrics, type HttpPorts, type LivePorts } from '../../services/http/index.js';
import { CoverageDesk } from '../../services/joining/coverage-desk.js';
import { createHealth } from '../../services/joining/health.js';
import { createPorts, type PortParts } from '../../services/joining/http-ports.js';
import { PlanDesk } from '../../services/joining/plan-desk.js';
import { accessInMemory } from '../http/access.js';
import type { TestStation } from './station.js';

interface Surroundings
  extends Partial<Pick<PortParts, 'telling' | 'catchUp' | 'people' | 'live' | 'access' | 'signing'>> {
  /** Wall clock, ms. */
  readonly now: () => number;
  /** ms; the clock's time where absent. */
  readonly startedAt?: number;
  /** When the newest message came, ms; null where none did. */
  readonly newestArrivalAt?: number | null;
}

/** Nothing is heard of it. */
const silent: LivePorts = {
  listen: () => () => undefined,
  opened: () => undefined,
  ended: () => undefined,
  refused: () => undefined,
};

/** As a service that only this machine reaches, without any way to tell people but its console. */
export const ALONE = {
  ...({ httpCredentials: false, broker: 'built-in', mqttCredentials: false } as const),
  ...{ links: false, shortMessages: false, gateway: false, brokerIsReached: false },
  deviceSecrets: () => 0,
  standing: () => 'open' as const,
};

/** What is not given does nothing that these tests ask for. */
export function portsOnStation(
  { station, registry }: Pick<TestStation, 'station' | 'registry'>,
  surroundings: Surroundings,
): HttpPorts {
  const { now, startedAt = now(), newestArrivalAt = null, ...others } = surroundings;
  return createPorts({
    ...{ telling: {} as never, catchUp: {} as never, people: {} as never },
    ...{ live: silent, access: ALONE, signing: accessInMemory(), ...others },
    ...{ station, now, desk: new CoverageDesk(), plans: new PlanDesk(), metrics: createMetrics('0.1.0') },
    health: createHealth({
      ...{ station, registry, now, version: '0.1.0', startedAt },
      ...{ collector: { failing: false } as never, newestArrivalAt: () => newestArrivalAt },
      tellingProblems: () => [],
      broker: { kind: 'built-in', connected: () => true, refused: null } as never,
    }),
  });
}
