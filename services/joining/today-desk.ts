/** What needs a person today, from what is at rest. */
import { byUrgency } from '../core/alarms/urgency.js';
import { type TodayBed, type TodayReadiness, todayItems, todaySentences } from '../core/keeping/index.js';
import type { CalibrationPorts, TodayPorts } from '../http/index.js';
import type { KnownBed } from './directory.js';
import { filledBy } from './known-bed.js';
import { labelled } from './labelled.js';
import { lookOf } from './look-views.js';
import { rotOf } from './rot-left.js';
import type { Station } from './station.js';
import { StockDesk } from './stock-desk.js';
import { unknownProbes } from './views.js';

export interface TodayParts {
  readonly station: Station;
  readonly calibrationsDue: CalibrationPorts['due'];
  /** In words: what is wrong with the service. */
  readonly problems: () => readonly string[];
  /** Wall clock, ms. */
  readonly now: () => number;
}

export function createToday({ station, calibrationsDue, problems, now }: TodayParts): TodayPorts['today'] {
  const stock = new StockDesk(station, now);
  return (language) => {
    const at = now();
    const say = todaySentences(language);
    const beds = [...station.directory.beds.values()].map((known) => todayBed(station, stock, known, at));
    beds.sort((one, other) => urgencyOf(one, other));
    const items = todayItems(
      {
        ...{ beds, problems: problems(), unknownProbes: unknownProbes(station) },
        calibrationsDue: calibrationsDue().flatMap(({ isDue, dueAt, ...due }) =>
          isDue && dueAt !== null ? [{ ...due, dueAt }] : [],
        ),
      },
      say,
    );
    return { at, language: say.language, nativeReviewed: say.nativeReviewed, items };
  };
}

/** Beds whose gravest alarm is graver first. */
function urgencyOf({ openAlarms: [one] }: TodayBed, { openAlarms: [other] }: TodayBed): number {
  if (!one || !other) return Number(one === undefined) - Number(other === undefined);
  return byUrgency(one, other);
}

function todayBed(station: Station, stock: StockDesk, known: KnownBed, now: number): TodayBed {
  const { site, bed, watched } = known;
  const openAlarms = station.registry.alarms
    .open(bed.id)
    .map((row) => labelled(station, row, now))
    .sort(byUrgency);
  return {
    ...{ site: site.id, bed, openAlarms, look: lookOf(station, stock, known, now) },
    rot: rotOf(station, known, stock.left(bed.id)).left,
    inspectEvery_days: watched.thresholds.inspect_every_days,
    readiness: readinessOf(station, known, now),
  };
}

/** Of a bed that is not filled: what was said of it last. */
function readinessOf(station: Station, known: KnownBed, now: number): TodayReadiness | undefined {
  const record = station.registry.readiness.upTo(known.bed.id, now);
  if (!record || filledBy(station, known, now) !== undefined) return undefined;
  const { at, verdict, notMet, unknown, overrides } = record;
  return {
    ...{ at, verdict, overridden: overrides.length > 0 },
    ...{ notMet: notMet.length, unknown: unknown.length },
  };
}
