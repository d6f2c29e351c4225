/** What thermal time says: sprouts and weevils likely, and the look by hand that is due. */
import { formatTime } from '../model/time.js';
import type { Standing } from './conditions.js';
import { outlook, type ThermalTimeSettings, type ThermalTimeState } from './thermal-time/index.js';

export function dueStanding({ due }: ThermalTimeState): Standing | undefined {
  if (!due) return undefined;
  return {
    ...{ kind: 'inspection-due', action: 'check', subject: '', priority: 'low' },
    evidence: { because: due.because, dueAt: formatTime(Math.round(due.dueAt / 1000) * 1000) },
    place: null,
  };
}

/** Developments whose sum has been reached since the bed was opened last; one of a kind, the first. */
export function grownStandings(state: ThermalTimeState, settings: ThermalTimeSettings): Standing[] {
  const reached = outlook(state, settings)
    .filter(({ sum }) => sum.reachedAt !== null && sum.reachedAt > state.lookedAt)
    .sort((one, other) => (one.sum.reachedAt ?? 0) - (other.sum.reachedAt ?? 0));
  return (['sprouting', 'weevils'] as const).flatMap((kind): Standing[] => {
    const first = reached.find(({ development }) => development.kind === kind);
    if (!first) return [];
    return [
      {
        kind: kind === 'weevils' ? 'weevil' : 'sprouting',
        ...{ action: 'check', subject: '', priority: 'low' },
        evidence: {
          degreeDays: Math.round(first.sum.sum_C_days),
          ...(kind === 'weevils' && { species: first.development.name }),
          source: first.development.source,
        },
        place: null,
      },
    ];
  });
}
