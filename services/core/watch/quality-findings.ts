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

/**
 * What the bed as a whole says of single probes, told where nothing graver of them is.
 *
 * @param others by name of the fault: by probe, since when, ms
 */
export function alsoFaulty(
  faults: readonly Standing[],
  others: Readonly<Record<string, ReadonlyMap<string, number>>>,
): Standing[] {
  const standing = [...faults];
  const isTold = (probe: string): boolean =>
    standing.some(({ kind, subject }) => kind === 'probe-fault' && subject === probe);
  for (const [fault, probes] of Object.entries(others))
    for (const [probe, since] of probes)
      if (!isTold(probe))
        standing.push({
          ...{ kind: 'probe-fault', action: 'service', subject: probe, priority: 'low' },
          evidence: { probe, fault, since: formatTime(since) },
          place: null,
        });
  return standing;
}
