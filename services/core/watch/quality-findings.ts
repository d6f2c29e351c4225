/** Faults of probes as conditions: of a probe one fault, and its silence. */
import { formatTime } from '../model/time.js';
import type { Standing } from './conditions.js';
import type { FaultVerdict } from './quality/index.js';

/** @param faults by probe: what stands, the first of them is told */
export function qualityStandings(faults: ReadonlyMap<string, readonly FaultVerdict[]>): Standing[] {
  return [...faults].flatMap(([probe, verdicts]): Standing[] => {
    const lasting = verdicts.filter(({ until }) => until === undefined);
    const silent = lasting.find(({ kind }) => kind === 'silent');
    const broken = lasting.find(({ kind }) => kind !== 'silent');
    const of = (kind: 'probe-silent' | 'probe-fault', verdict: FaultVerdict): Standing => ({
      ...{ kind, action: 'service', subject: probe, priority: 'low' },
      evidence: {
        probe,
        ...(kind === 'probe-fault' && { fault: verdict.kind }),
        ...(verdict.quantity && { quantity: verdict.quantity }),
        since: formatTime(Math.round(verdict.since / 1000) * 1000),
      },
      place: null,
    });
    return [...(silent ? [of('probe-silent', silent)] : []), ...(broken ? [of('probe-fault', broken)] : [])];
  });
}

/** @param pulled by probe that lies no longer in sand, since when, ms: told where nothing else of it is */
export function pulledStandings(
  faults: readonly Standing[],
  pulled: ReadonlyMap<string, number>,
): Standing[] {
  const isTold = (probe: string): boolean =>
    faults.some(({ kind, subject }) => kind === 'probe-fault' && subject === probe);
  return [
    ...faults,
    ...[...pulled]
      .filter(([probe]) => !isTold(probe))
      .map(
        ([probe, since]): Standing => ({
          ...{ kind: 'probe-fault', action: 'service', subject: probe, priority: 'low' },
          evidence: { probe, fault: 'pulled', since: formatTime(since) },
          place: null,
        }),
      ),
  ];
}
