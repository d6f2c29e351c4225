/** What those who open beds write down: only where a scenario says that they do. */
import type { InspectionBody } from '../services/core/model/inspection.js';
import { DAY_ms } from '../services/core/model/time.js';
import type { Scenario, SimulatedBed } from './scenario.js';
import type { Opening } from './scenario-bed.js';

/** An inspection of a bed: with its time as text it is what the service takes. */
export interface PlannedInspection extends InspectionBody {
  readonly bed: string;
}

/** Rot smells after so many days, and damp is felt after as many. Judgement. */
const NOTICED_days = 2;

/**
 * The told openings of a season, in order of time.
 *
 * @param from when the season begins, ms
 */
export const inspectionsOf = ({ beds, days }: Scenario, from: number): PlannedInspection[] =>
  beds
    .flatMap((bed) =>
      bed.openings
        .filter(({ told, day }) => told && day < days)
        .map((opening) => ({
          bed: bed.id,
          at: from + Math.round(opening.day * DAY_ms),
          by: 'keeper',
          opened: true,
          repacked: opening.repacked,
          found: foundIn(bed, opening),
        })),
    )
    .sort((one, other) => one.at - other.at);

/** What lies down to where sand was taken out, and is not too fresh to be noticed. */
function foundIn(bed: SimulatedBed, { day, depth }: Opening): InspectionBody['found'] {
  const old = (startDay: number): boolean => day >= startDay + NOTICED_days;
  const gone = (startDay: number, at: number): boolean =>
    bed.openings.some(
      (earlier) => earlier.repacked && earlier.day < day && earlier.day > startDay && earlier.depth >= at,
    );
  const found: InspectionBody['found'] = [];
  if (bed.rots.some((rot) => rot.depth <= depth && old(rot.startDay) && !gone(rot.startDay, rot.depth)))
    found.push('rot');
  if ((bed.leak && old(bed.leak.startDay)) || (bed.damping && old(bed.damping.startDay))) found.push('damp');
  return found.length > 0 ? found : ['nothing'];
}
