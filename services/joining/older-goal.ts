/**
 * Until when a probe's readings need not be kept one by one any more: older than the span that is kept, and needed by
 * no watch, no bench and no open alarm.
 */
import type { AlarmKind } from '../core/model/alarm.js';
import { DAY_ms } from '../core/model/time.js';
import { STATES_FOR_EVER_EVERY_days } from '../registry/index.js';
import type { BedWatcher } from './bed-watcher.js';
import { type KnownProbe, staysInBed, staysInShade } from './directory.js';
import type { Station } from './station.js';

/** What an alarm rests on reaches back from its raising; those on the season's warmth rest on daily means. Judgement. */
const EVIDENCE_ms = 10 * DAY_ms;

/** Alarms that rest on no course of readings: what a broken probe showed is flagged, and flagged values stay. */
const NO_COURSE: readonly AlarmKind[] = ['inspection-due', 'probe-silent', 'probe-fault'];

/** A state of a bed's watch is kept for ever on each of these: from there it goes on. */
const STEP_ms = STATES_FOR_EVER_EVERY_days * DAY_ms;

export interface KeptSpan {
  /** For so long readings are kept one by one, ms. */
  readonly keep_ms: number;
  /** Wall clock, ms. */
  readonly now: number;
}

/** @returns a time that is never before the goal of the probe so far, ms */
export function goalOf(station: Station, probe: KnownProbe, span: KeptSpan): number {
  const { archive } = station;
  const before = archive.fullRate.mark(probe.key).goal;
  const newest = archive.readings.lastTime(probe.key, Number.MAX_SAFE_INTEGER);
  if (newest === undefined) return before;
  // By the clock and by the probe: a clock that runs ahead folds nothing of a probe's last readings.
  const limits = [
    Math.min(span.now, newest) - span.keep_ms,
    station.benchSince(probe.site, probe.probe.id) ?? Number.POSITIVE_INFINITY,
    ...evidenceOf(station, probe),
  ];
  const watchers = watchersOf(station, probe);
  if (watchers.some((one) => one.dirty || station.failures.has(one.known.bed.id))) return before;
  let goal = stepBefore(Math.min(...limits));
  while (goal > before && !watchers.every((watcher) => canGoOn(station, watcher, goal))) goal -= STEP_ms;
  return Math.max(before, goal);
}

const stepBefore = (time: number): number => Math.floor(time / STEP_ms) * STEP_ms;

/** Whether a watch can judge again everything from a time on without what was measured before. */
function canGoOn({ registry }: Station, { known, begunAt, judgedTo }: BedWatcher, time: number): boolean {
  if (begunAt === undefined || judgedTo === undefined) return true;
  if (time <= begunAt || time > judgedTo) return true;
  return registry.watch.hasCheckpoint(known.bed.id, time);
}

function watchersOf(station: Station, probe: KnownProbe): BedWatcher[] {
  const inShade = staysInShade(probe).length > 0;
  return [...station.watchers.values()].filter(
    ({ known: { site, bed } }) => site.id === probe.site && (inShade || staysInBed(probe, bed.id).length > 0),
  );
}

/** An open alarm that keeps readings one by one that are older than the span. */
export interface HeldBed {
  readonly bed: string;
  readonly alarm: string;
}

/**
 * The oldest such alarm of each bed. It is right that nobody's clock ends this: what an alarm rests on can be looked at for
 * as long as it is open, and room is all that it costs. It ends when somebody answers it, or when the bed is filled anew.
 */
export function heldBeds({ registry, directory }: Station, { keep_ms, now }: KeptSpan): HeldBed[] {
  return [...directory.beds.keys()].flatMap((bed) => {
    const [oldest] = registry.alarms
      .open(bed)
      .filter(({ kind, raisedAt }) => !NO_COURSE.includes(kind) && raisedAt - EVIDENCE_ms < now - keep_ms)
      .sort((one, other) => one.raisedAt - other.raisedAt);
    return oldest ? [{ bed, alarm: oldest.id }] : [];
  });
}

/** Starts of what the open alarms of the probe's beds rest on. */
function evidenceOf(station: Station, probe: KnownProbe): number[] {
  const beds = new Set(probe.stays.flatMap(({ placement }) => (placement ? [placement.bed] : [])));
  return [...beds]
    .flatMap((bed) => station.registry.alarms.open(bed))
    .filter(({ kind }) => !NO_COURSE.includes(kind))
    .map(({ raisedAt }) => raisedAt - EVIDENCE_ms);
}
