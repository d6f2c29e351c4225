/** What the watch over warmth found, as conditions with their evidence. */
import type { Place } from '../model/alarm.js';
import { formatTime, HOUR_ms } from '../model/time.js';
import type { Standing } from './conditions.js';
import type { ProbeFinding, Source } from './warmth/heat-types.js';
import type { HeatWatch } from './warmth/heat-watch.js';

const STEP_ms = 6 * HOUR_ms;

const round = (value: number, digits: number): number => Number(value.toFixed(digits));

const placeOf = ({ x, y, depth, radius }: Source): Place => ({
  x: Math.round(x),
  y: Math.round(y),
  depth: Math.round(depth),
  radius: Math.round(radius),
});

/** What sources of one bed that are told at once are told apart by. */
const SUBJECTS = ['', 'second', 'third'] as const;

/**
 * @param ids of the probes, in the order of the watch's points
 * @param excess_C by how much each probe is warmer than a sound bed, where it measured
 * @param at event time of these, ms
 * @param isAlone whether it is the only one: the warmest probe is then its doing, else the nearest is
 */
export function sourceStanding(
  source: Source,
  ids: readonly string[],
  excess_C: readonly (number | undefined)[],
  at: number,
  isAlone: boolean,
): Standing {
  const warmest = isAlone ? warmestOf(excess_C, source.nearest) : source.nearest;
  const excess = excess_C[warmest];
  return {
    ...{ kind: 'heating', action: source.action, subject: SUBJECTS[source.slot] ?? '' },
    priority: source.action === 'unpack' ? 'high' : 'medium',
    evidence: {
      probe: ids[warmest] ?? '',
      ...(excess !== undefined && { excess_C: round(excess, 2), excessAt: formatTime(at) }),
      probes: source.probes,
      power_W: round(source.power, 1),
      onsetAt: formatTime(source.onsetStep * STEP_ms),
      strength: round(Math.min(source.ratio, 999), 1),
    },
    place: placeOf(source),
  };
}

const warmestOf = (excess_C: readonly (number | undefined)[], otherwise: number): number =>
  excess_C.reduce<number>(
    (best, excess, index) => ((excess ?? -99) > (excess_C[best] ?? -99) ? index : best),
    otherwise,
  );

/** A drift or a step that only one probe shows. */
export const probeStanding = ({ fault, size, since }: ProbeFinding, probe: string): Standing => ({
  ...{ kind: 'probe-fault', action: 'service', subject: probe, priority: 'low' },
  evidence: {
    probe,
    fault: fault === 'drift' ? 'drift' : 'misplaced',
    ...(fault === 'drift' ? { drift_C_per_day: round(size, 3) } : { shift_C: round(size, 2) }),
    since: formatTime(since),
  },
  place: null,
});

/** The bed seems to have been handled, and nothing is written down. */
export function askedStanding(heat: HeatWatch): Standing | undefined {
  if (heat.asked === null) return undefined;
  return {
    ...{ kind: 'inspection-due', action: 'check', subject: '', priority: 'medium' },
    evidence: { because: 'asked', since: formatTime(heat.asked) },
    place: null,
  };
}
