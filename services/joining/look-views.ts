/** Which beds are due for a look by hand. */
import { type LookDue, lookDue } from '../core/keeping/index.js';
import { LATEST_TIME_ms } from '../core/model/time.js';
import type { LookView } from '../http/index.js';
import { asAlarm } from './alarm-keeper.js';
import type { KnownBed } from './directory.js';
import { rotOf } from './rot-left.js';
import type { Station } from './station.js';
import type { StockDesk } from './stock-desk.js';

/** Those due first, the longest due first. */
export function lookViews(station: Station, stock: StockDesk, now: number): LookView[] {
  const views = [...station.directory.beds.values()].map((known) => lookView(station, stock, known, now));
  return views.sort((one, other) => (one.dueAt ?? LATEST_TIME_ms) - (other.dueAt ?? LATEST_TIME_ms));
}

/** When a bed is to be looked into, and why. */
export function lookOf(station: Station, stock: StockDesk, known: KnownBed, now: number): LookDue {
  const { bed, watched } = known;
  const filledAt = bed.filled ?? null;
  const left = stock.left(bed.id);
  return lookDue(
    {
      ...{ filledAt, lookedAt: openedSince(station, known), empty: left === 0 },
      rotSince: rotOf(station, known, left).left?.since ?? null,
      inspectEvery_days: watched.thresholds.inspect_every_days,
      nextLook: station.watchers.get(bed.id)?.standing().nextLook ?? null,
      openAlarms: station.registry.alarms.open(bed.id).map((row) => asAlarm(row, now)),
    },
    now,
  );
}

const openedSince = ({ registry }: Station, { bed }: KnownBed): number | null =>
  registry.inspections.openedAt(bed.id, bed.filled ?? 0) ?? null;

function lookView(station: Station, stock: StockDesk, known: KnownBed, now: number): LookView {
  const look = lookOf(station, stock, known, now);
  return { ...look, bed: known.bed, site: known.site.id, lookedAt: openedSince(station, known) };
}
