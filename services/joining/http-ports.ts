/** Everything that the HTTP edge asks for, and what follows from what it is told. */
import { DAY_ms } from '../core/model/time.js';
import { FLAG_REASONS } from '../core/watch/flag.js';
import type { AccessPorts, Health, HttpPorts, LivePorts, Metrics, PeoplePorts } from '../http/index.js';
import type { AccessFacts } from './access.js';
import { BenchDesk } from './bench-desk.js';
import { CalibrationDesk } from './calibration-desk.js';
import type { CatchUp } from './catch-up.js';
import { Certificates } from './certificates.js';
import type { CoverageDesk } from './coverage-desk.js';
import { ExportDesk } from './export-desk.js';
import type { OlderPages } from './export-older.js';
import type { OlderReader } from './older-series.js';
import type { PlanDesk } from './plan-desk.js';
import { ReadinessDesk } from './readiness-desk.js';
import { sandDesk } from './sand-desk.js';
import { SeasonDesk } from './season-desk.js';
import { createSitePorts } from './site-ports.js';
import type { Station } from './station.js';
import type { Telling } from './telling.js';
import { createToday } from './today-desk.js';
import { createTrials } from './trial-reports.js';
import { createViews } from './views.js';

export interface PortParts {
  readonly station: Station;
  readonly telling: Telling;
  readonly catchUp: CatchUp;
  readonly desk: CoverageDesk;
  readonly plans: PlanDesk;
  readonly people: PeoplePorts;
  readonly live: LivePorts;
  readonly access: AccessFacts;
  /** Who asks, and what they changed. */
  readonly signing: AccessPorts;
  readonly metrics: Metrics;
  /** Of the long archive, where there is one. */
  readonly reader?: (OlderReader & OlderPages) | undefined;
  readonly health: () => Health;
  /** Wall clock, ms. */
  readonly now: () => number;
}

/** What changes how beds are judged wakes the telling and the judging again, once it is kept. */
export function createPorts(parts: PortParts): HttpPorts {
  const { station, telling, catchUp, desk, plans, people, live, access, metrics, health, now } = parts;
  const views = createViews(station, desk, now, parts.reader);
  /** What is corrected otherwise is judged again, and people are told what follows. */
  const following = <Result>(result: Result): Result => {
    telling.wake();
    catchUp.kick();
    return result;
  };
  const calibrations = new CalibrationDesk(station, now);
  const bench = new BenchDesk(station, calibrations, now);
  const sites = createSitePorts({
    ...{ station, calibrations, now, access },
    hasWay: (via) => people.ways().some((way) => way.via === via && way.usable),
    onChange: () => {
      telling.plan();
      catchUp.kick();
    },
  });
  const certificates = new Certificates(station, calibrations, `Sandlarder ${health().version}`, now);
  return {
    ...views,
    access: parts.signing,
    people,
    live,
    today: createToday({
      ...{ station, now, calibrationsDue: () => calibrations.due() },
      problems: () => health().problems,
    }),
    sites,
    bench: {
      list: (site, state, limit) => bench.list(site, state, limit),
      open: (body) => bench.open(body),
      get: (id) => bench.get(id),
      point: (id, body) => bench.point(id, body),
      capture: (id, body) => bench.capture(id, body),
      dropPoint: (id) => bench.dropPoint(id),
      fits: (id, body) => bench.fits(id, body),
      finish: (id, body) => following(bench.finish(id, body)),
      giveUp: (id, reason) => bench.giveUp(id, reason),
    },
    calibrations: {
      list: (query) => calibrations.list(query),
      get: (id) => calibrations.get(id),
      standing: (record) => ({
        inForce: calibrations.isInForce(record),
        supersededBy: calibrations.supersededBy(record),
      }),
      add: (body) => following(calibrations.add(body)),
      pairs: (body) => following(calibrations.pairs(body)),
      due: () => calibrations.due(),
      page: (id) => certificates.page(id),
      pdf: (id) => certificates.pdf(id),
      fieldChecks: (site, probe, limit) => calibrations.fieldChecks(site, probe, limit),
      checkInField: (body) => calibrations.checkInField(body),
    },
    plan: (question) => plans.answer(question),
    sand: sandDesk(station, now),
    seasons: new SeasonDesk(station, `Sandlarder ${health().version}`, now),
    exports: new ExportDesk({
      ...{ archive: station.archive, registry: station.registry, calibrations: station.calibrations },
      ...{ directory: () => station.directory, program: `Sandlarder ${health().version}` },
      older: parts.reader,
    }),
    readiness: new ReadinessDesk(station, now),
    trials: createTrials(station, `Sandlarder ${health().version}`, now),
    ledger: {
      ...views.ledger,
      records: (bed, body) => following(views.ledger.records(bed, body)),
    },
    inspect: (bed, body) => following(views.inspect(bed, body)),
    shelve: (id, body) => {
      const alarm = views.shelve(id, body);
      telling.plan();
      return alarm;
    },
    acknowledge: (id, body) => {
      const alarm = views.acknowledge(id, body);
      telling.plan();
      return alarm;
    },
    health,
    metrics: () => {
      const { watchLag, outboxWaiting, longArchive, olderReadings } = health();
      metrics.olderWaiting_s.set(((olderReadings?.waiting.days ?? 0) * DAY_ms) / 1000);
      metrics.olderDone_s.set((olderReadings?.lastAt ?? 0) / 1000);
      metrics.olderHeld.set(olderReadings?.heldBy.length ?? 0);
      metrics.watchLag_s.set(watchLag.hours * 3600);
      metrics.outboxWaiting.set(outboxWaiting);
      metrics.forwardWaiting.set(longArchive?.waiting ?? 0);
      metrics.forwardAge_s.set(longArchive?.oldestAt == null ? 0 : (now() - longArchive.oldestAt) / 1000);
      const flagged = station.archive.flags.totals();
      for (const reason of FLAG_REASONS) metrics.flaggedReadings.set({ reason }, flagged.get(reason) ?? 0);
      metrics.quarantineRows.set(station.archive.quarantine.rows());
      metrics.probesKnown.set(station.directory.probeCount);
      return metrics.text();
    },
  };
}
