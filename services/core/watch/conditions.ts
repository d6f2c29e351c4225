/** From the conditions that stand in an hour to what has changed since the hour before. */
import type { Evidence, Place, Priority } from '../model/alarm.js';
import type { Change, Condition } from './watch.js';

/** A condition that someone must act on, as it stands. */
export interface Standing extends Condition {
  readonly priority: Priority;
  readonly evidence: Evidence;
  readonly place: Place | null;
}

/** What was told of an open condition: changes again only where its place does. */
export interface Told extends Condition {
  readonly place: Place | null;
}

/** A place that moved by less than this, or whose radius changed by less, is the same place, cm. */
const SAME_cm = 3;

const isSame = (one: Condition, other: Condition): boolean =>
  one.kind === other.kind && one.action === other.action && one.subject === other.subject;

function hasMoved(before: Place | null, now: Place | null): boolean {
  if (!before || !now) return before !== now;
  const moved = Math.hypot(before.x - now.x, before.y - now.y, before.depth - now.depth);
  return moved >= SAME_cm || Math.abs(before.radius - now.radius) >= SAME_cm;
}

/**
 * @param told what was open before
 * @param standing what stands now, at most one of a kind, action and subject
 */
export function changesOf(
  told: readonly Told[],
  standing: readonly Standing[],
): { changes: Change[]; told: Told[] } {
  const changes: Change[] = [];
  for (const open of told) {
    const { kind, action, subject } = open;
    if (!standing.some((now) => isSame(now, open))) changes.push({ type: 'clear', kind, action, subject });
  }
  const after = standing.map((now): Told => {
    const { kind, action, subject, priority, evidence, place } = now;
    const before = told.find((open) => isSame(open, now));
    if (!before) changes.push({ type: 'raise', kind, action, subject, priority, evidence, place });
    else if (hasMoved(before.place, place))
      changes.push({ type: 'refine', kind, action, subject, evidence, place });
    else return before;
    return { kind, action, subject, place };
  });
  return { changes, told: after };
}
