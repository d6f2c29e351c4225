/** Everything that the HTTP edge asks for, and what follows from what it is told. */
import { FLAG_REASONS } from '../core/watch/flag.js';
import type { Health, HttpPorts, Metrics } from '../http/index.js';
import type { CatchUp } from './catch-up.js';
import type { CoverageDesk } from './coverage-desk.js';
import type { Station } from './station.js';
import type { Telling } from './telling.js';
import { createViews } from './views.js';

export interface PortParts {
  readonly station: Station;
  readonly telling: Telling;
  readonly catchUp: CatchUp;
  readonly desk: CoverageDesk;
  readonly metrics: Metrics;
  readonly health: () => Health;
  /** Wall clock, ms. */
  readonly now: () => number;
}

export function createPorts({ station, telling, catchUp, desk, metrics, health, now }: PortParts): HttpPorts {
  const views = createViews(station, desk, now);
  return {
    ...views,
    inspect: (bed, body) => {
      const inspection = views.inspect(bed, body);
      telling.wake();
      catchUp.kick();
      return inspection;
    },
    acknowledge: (id, body) => {
      const alarm = views.acknowledge(id, body);
      telling.show(alarm.bed);
      return alarm;
    },
    health,
    metrics: () => {
      const { watchLag, outboxWaiting } = health();
      metrics.watchLag_s.set(watchLag.hours * 3600);
      metrics.outboxWaiting.set(outboxWaiting);
      const flagged = station.archive.flags.totals();
      for (const reason of FLAG_REASONS) metrics.flaggedReadings.set({ reason }, flagged.get(reason) ?? 0);
      metrics.quarantineRows.set(station.archive.quarantine.rows());
      metrics.probesKnown.set(station.directory.probeCount);
      return metrics.text();
    },
  };
}
