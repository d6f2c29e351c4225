/** What is asked of a bed as it stands now. */
import {
  type CoverageAnswer,
  type CoverageTask,
  shadeStands,
  standingIn,
} from '../core/watch/coverage/index.js';
import type { CoverageQuery, CoverageView } from '../http/index.js';
import type { KnownBed } from './directory.js';

/** @param now wall clock, ms: probes that were taken out by then find nothing */
export function coverageTask(known: KnownBed, query: CoverageQuery, now: number): CoverageTask {
  const { bed, probes, shade, watched } = known;
  const { heating_unpack_per_bed_month, heating_check_per_bed_month } = watched.thresholds;
  const ofProbes = (of: readonly KnownBed['probes'][number][]) => of.map(({ probe }) => probe);
  return {
    bed: { kind: bed.kind, steps: bed.steps, ...(bed.roots && { roots: bed.roots }) },
    points: standingIn(bed.id, ofProbes(probes), now),
    question: {
      ...{ power_W: query.power_W, days: query.days, shade: shadeStands(ofProbes(shade), now) },
      rates: {
        unpack_per_bed_month: heating_unpack_per_bed_month,
        check_per_bed_month: heating_check_per_bed_month,
      },
    },
    next: query.next,
  };
}

export const coverageView = (
  { bed }: KnownBed,
  task: CoverageTask,
  answer: CoverageAnswer,
): CoverageView => ({
  ...{ bed, probes: task.points.length, shade: task.question.shade, ...answer },
});
