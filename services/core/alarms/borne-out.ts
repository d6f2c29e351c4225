/** What bears an alarm of warmth out, beside how warm it is at a probe: since when it has grown, and how many probes show it. */
import type { Evidence } from '../model/alarm.js';
import { DAY_ms } from '../model/time.js';
import { numberOf, timeOf } from './evidence-values.js';

export interface BorneOut {
  /** Whole days from its likely beginning to the time of the evidence. */
  readonly days: number;
  readonly probes: number;
}

/** Undefined where the evidence does not say both. */
export function borneOutBy(evidence: Evidence): BorneOut | undefined {
  const [began, known] = [timeOf(evidence, 'onsetAt'), timeOf(evidence, 'excessAt')];
  const probes = numberOf(evidence, 'probes');
  if (began === undefined || known === undefined || !(known >= began)) return undefined;
  if (probes === undefined || !(probes >= 1)) return undefined;
  return { days: Math.round((known - began) / DAY_ms), probes };
}
