/** How the service itself is. */
import { isStoreError } from '../archive/index.js';
import { HOUR_ms } from '../core/model/time.js';
import type { Health } from '../http/index.js';
import type { Collector } from '../intake/index.js';
import type { Registry } from '../registry/index.js';
import type { Broker } from './broker.js';
import type { LongArchive } from './long-archive.js';
import type { OlderReadings } from './older-readings.js';
import type { Station } from './station.js';
import type { StoreWatch } from './store-watch.js';

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
  readonly store?: Pick<StoreWatch, 'failed' | 'problems'> | undefined;
  /** In words: that the wall clock was set. */
  readonly clockProblems?: (() => readonly string[]) | undefined;
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
  const { station, collector, broker, registry, version, startedAt, store } = parts;
  const outboxWaiting = remembered(() => registry.outbox.waiting(), 0, store);
  const longArchive = remembered(() => parts.longArchive?.health() ?? null, null, store);
  const archiveProblems = remembered(() => parts.longArchive?.problems() ?? [], [], store);
  const olderReadings = remembered(() => parts.older?.health() ?? null, null, store);
  const tellingProblems = remembered(() => parts.tellingProblems(), [], store);
  return (): Health => {
    // First: what cannot be read now is a problem too.
    const read = {
      ...{ outboxWaiting: outboxWaiting(), longArchive: longArchive(), olderReadings: olderReadings() },
    };
    const others = [...tellingProblems(), ...archiveProblems()];
    const problems = [
      ...(store?.problems(collector.failing) ?? (collector.failing ? [NOT_STORED] : [])),
      ...(broker.connected() ? [] : [brokerProblem(broker)]),
      ...[...station.failures].map(([bed, reason]) => `the watch of bed ${bed} cannot go on: ${reason}`),
      ...(parts.clockProblems?.() ?? []),
      ...quietProblem(parts),
      ...others,
    ];
    const byBed = [...station.watchers].map(([bed, watcher]) => ({ bed, hours: watcher.lag_h }));
    const lags = byBed.map(({ hours }) => hours);
    return {
      status: problems.length === 0 ? 'ok' : 'degraded',
      problems,
      accepting: !collector.failing && broker.connected(),
      version,
      startedAt,
      broker: {
        ...{ kind: broker.kind, connected: broker.connected() },
        refused: broker.refused && { ...broker.refused },
      },
      newestReadingAt: newest([...station.watchers.values()].map((watcher) => watcher.newestReadingAt)),
      watchLag: { beds: lags.filter((lag) => lag >= 1).length, hours: Math.max(0, ...lags), byBed },
      ...read,
    };
  };
}

const NOT_STORED = 'readings cannot be stored: they are not acknowledged until they can';

function brokerProblem(broker: Broker): string {
  const said = broker.trouble();
  return said === undefined ? 'no connection to the broker' : `no connection to the broker: ${said}`;
}

/** A store that cannot be read is told of, and what it answered last stands meanwhile. */
function remembered<Answer>(
  ask: () => Answer,
  first: Answer,
  store: Pick<StoreWatch, 'failed'> | undefined,
): () => Answer {
  let last = first;
  return () => {
    try {
      last = ask();
    } catch (error) {
      if (!(store && isStoreError(error))) throw error;
      store.failed(error);
    }
    return last;
  };
}

function newest(times: readonly (number | undefined)[]): number | null {
  return times.reduce<number | null>(
    (newestTime, time) => (time === undefined ? newestTime : Math.max(newestTime ?? time, time)),
    null,
  );
}
