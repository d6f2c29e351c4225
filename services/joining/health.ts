/** How the service itself is. */
import type { Health } from '../http/index.js';
import type { Collector } from '../intake/index.js';
import type { Registry } from '../registry/index.js';
import type { Broker } from './broker.js';
import type { Station } from './station.js';

export interface HealthParts {
  readonly station: Station;
  readonly collector: Collector;
  readonly broker: Broker;
  readonly registry: Registry;
  readonly version: string;
  /** Wall clock, ms. */
  readonly startedAt: number;
}

export function createHealth({ station, collector, broker, registry, version, startedAt }: HealthParts) {
  return (): Health => {
    const accepting = !collector.failing && broker.connected();
    const problems = [
      ...(collector.failing ? ['readings cannot be stored: they are not acknowledged until they can'] : []),
      ...(broker.connected() ? [] : ['no connection to the broker']),
      ...[...station.failures].map(([bed, reason]) => `the watch of bed ${bed} cannot go on: ${reason}`),
    ];
    const byBed = [...station.watchers].map(([bed, watcher]) => ({ bed, hours: watcher.lag_h }));
    const lags = byBed.map(({ hours }) => hours);
    return {
      status: problems.length === 0 ? 'ok' : 'degraded',
      problems,
      accepting,
      version,
      startedAt,
      broker: { kind: broker.kind, connected: broker.connected() },
      newestReadingAt: newest([...station.watchers.values()].map((watcher) => watcher.newestReadingAt)),
      watchLag: { beds: lags.filter((lag) => lag >= 1).length, hours: Math.max(0, ...lags), byBed },
      outboxWaiting: registry.outbox.waiting(),
    };
  };
}

function newest(times: readonly (number | undefined)[]): number | null {
  return times.reduce<number | null>(
    (newestTime, time) => (time === undefined ? newestTime : Math.max(newestTime ?? time, time)),
    null,
  );
}
