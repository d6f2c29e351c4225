/** Where the probes of a filling stood until then: one that is written down by a wrong name is missed elsewhere. */
import type { Filling } from '../core/model/filling.js';
import type { Directory } from './directory.js';

/**
 * @param directory as it was before the filling
 * @returns a note for each probe that stood in the shade or in another bed at the time
 */
export function probesTaken(directory: Directory, site: string, { bed, at, probes }: Filling): string[] {
  return probes.flatMap(({ probe }) => {
    const stay = directory.find(site, probe)?.stays.find(({ from, to }) => from <= at && at < to);
    if (!stay || stay.placement?.bed === bed) return [];
    const where = stay.placement ? `lay in bed "${stay.placement.bed}"` : 'stood in the shade outside';
    return [`${probe} ${where} until now: look whether it is the right probe`];
  });
}
