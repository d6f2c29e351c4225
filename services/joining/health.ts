/** How the service itself is. */
import { HOUR_ms } from '../core/model/time.js';
import type { Health } from '../http/index.js';
import type { Collector } from '../intake/index.js';
import type { Registry } from '../registry/index.js';
import type { Broker } from './broker.js';
import type { LongArchive } from './long-archive.js';
import type { OlderReadings } from './older-readings.js';
import type { Station } from './station.js';

export interface HealthParts {
  readonly station: Station;
  readonly collector: Collector;
  readonly broker: Broker;
  readonly registry: Registry;
  readonly version: string;
  /** Wall clock, ms. */
  readonly startedAt: number;
  readonly now: () => number;
  /** When the last message of any probe came, wall clock, ms; null before the first since the start. */
  readonly newestArrivalAt: () => number | null;
  /** In words: what is wrong with telling people. */
  readonly tellingProblems: () => readonly string[];
  readonly longArchive?: Pick<LongArchive, 'health' | 'problems'> | undefined;
  readonly older?: Pick<OlderReadings, 'health'> | undefined;
}

/** Without a word of any probe for so long, the network, the broker or the power is at fault. Judgement. */
const QUIET_ms = 3 * HOUR_ms;

/** Watches see the silence of a probe by what others of its bed measure: that of all is seen here, by the clock. */
function quietProblem({ station, startedAt, now, newestArrivalAt }: HealthParts): string[] {
  const quiet_ms = now() - (newestArrivalAt() ?? startedAt);
  if (station.directory.probeCount === 0 || !(quiet_ms >= QUIET_ms)) return [];
  return [
    `no message from any probe for ${Math.floor(quiet_ms / HOUR_ms)} hours: see to the network, the broker and the power of the probes`,
  ];
}

export function createHealth(parts: HealthParts) {
  const { station, collector, broker, registry, version, startedAt } = parts;
  return (): Health => {
    const accepting = !collector.failing && broker.connected();
    const problems = [
      ...(collector.failing ? ['readings cannot be stored: they are not acknowledged until they can'] : []),
      ...(broker.connected() ? [] : ['no connection to the broker']),
      ...[...station.failures].map(([bed, reason]) => `the watch of bed ${bed} cannot go on: ${reason}`),
    ];
    problems.push(
      ...quietProblem(parts),
      ...parts.tellingProblems(),
      ...(parts.longArchive?.problems() ?? []),
    );
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
      longArchive: parts.longArchive?.health() ?? null,
      olderReadings: parts.older?.health() ?? null,
    };
  };
}

function newest(times: readonly (number | undefined)[]): number | null {
  return times.reduce<number | null>(
    (newestTime, time) => (time === undefined ? newestTime : Math.max(newestTime ?? time, time)),
    null,
  );
}
