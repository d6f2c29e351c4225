/** What the fillings that were written down make of a site description. */
import { SandlarderError } from '../core/errors.js';
import { isFilledLater, latestFilling, withFillings } from '../core/keeping/index.js';
import type { Filling } from '../core/model/filling.js';
import {
  type Bed,
  bedSchema,
  type Probe,
  probeSchema,
  referenceProblems,
  type SiteDescription,
} from '../core/model/site.js';
import { documentOf } from './site-document.js';

/** Beds that the description says were filled at another time, ms, than was written down, which stands. */
export function filledOtherwise(
  { beds }: SiteDescription,
  fillings: readonly Filling[],
): { bed: string; at: number }[] {
  return beds.flatMap((bed) => {
    const last = latestFilling(fillings, bed.id);
    const differs = bed.filled !== undefined && bed.filled !== last?.at;
    return last && differs && !isFilledLater(bed, last) ? [{ bed: bed.id, at: last.at }] : [];
  });
}

/**
 * Beds and probes with what was written down, read anew, so that keys stand in the order of the schema as those of a
 * file do.
 *
 * @param known beds of the site as it stands, those that the description leaves out among them
 * @throws SandlarderError CONFLICT where one of its beds no longer holds a probe that was buried in it
 */
export function withRecorded(
  description: SiteDescription,
  fillings: readonly Filling[],
  known: readonly Bed[],
): { beds: Bed[]; probes: Probe[] } {
  const { beds, probes } = withFillings(description, fillings);
  const all = { beds: [...known, ...beds], probes: [], people: [] };
  const [problem] = referenceProblems({ beds: [], probes, people: [] }, all);
  if (problem)
    throw new SandlarderError(
      'CONFLICT',
      `probe "${probes[Number(problem.path[1])]?.id}", as it was buried at a filling: ${problem.message}`,
    );
  return {
    beds: beds.map((bed) => bedSchema.parse(JSON.parse(documentOf(bed)))),
    probes: probes.map((probe) => probeSchema.parse(JSON.parse(documentOf(probe)))),
  };
}
