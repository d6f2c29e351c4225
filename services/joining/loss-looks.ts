import { type Ledger, type LossLook, lossLookOf, rootsAt } from '../core/keeping/index.js';
import { LATEST_TIME_ms } from '../core/model/time.js';
import type { Station } from './station.js';

/** Looks since the filling that tell of losses, in order of time; of two at one instant the first. */
export function lossLooks({ registry }: Station, ledger: Ledger, since: number): LossLook[] {
  const looks = registry.inspections.between(ledger.bed, since + 1, LATEST_TIME_ms).flatMap((inspection) => {
    const present = ledger.entries.length === 0 ? null : rootsAt(ledger, inspection.at - 1);
    return lossLookOf(inspection.at, inspection, present) ?? [];
  });
  return looks.filter(({ at }, index) => at !== looks[index - 1]?.at);
}
