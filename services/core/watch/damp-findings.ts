/** Findings of damp as conditions: of each kind one, the gravest. */

import type { Standing } from './conditions.js';
import type { DampFinding } from './dampness/index.js';
import type { Condition } from './watch.js';

const PRIORITY = { unpack: 'high', check: 'medium', service: 'low' } as const;

/** @param findings the gravest first */
export function dampStandings(findings: readonly DampFinding[]): Standing[] {
  const standing: Standing[] = [];
  for (const { kind, action, probe, evidence, place } of findings) {
    const same = (one: Condition): boolean => one.kind === kind;
    if (standing.some(same)) continue;
    standing.push({
      kind,
      action,
      subject: '',
      priority: PRIORITY[action],
      evidence: { probe, ...evidence },
      place,
    });
  }
  return standing;
}
