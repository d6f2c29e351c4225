import type { TrialBed } from '../api/types/trial.js';
import { Wide } from '../parts/wide.js';
import { say } from '../words/say.js';
import { useBedName } from './bed-names.js';

/** Beds with their blocks and treatments, as far as they have some. */
export function GivenTable({ beds }: { beds: readonly TrialBed[] }) {
  const nameOf = useBedName();
  const hasBlocks = beds.some(({ block }) => block !== null);
  const hasTreatments = beds.some(({ treatment }) => treatment !== null);
  return (
    <Wide label={say('trials.bedsTitle')}>
      <table class="trial-beds">
        <caption class="aloud">{say('trials.bedsTitle')}</caption>
        <thead>
          <tr>
            <th scope="col">{say('trials.bed')}</th>
            {hasBlocks ? <th scope="col">{say('trials.block')}</th> : null}
            {hasTreatments ? <th scope="col">{say('trials.treatment')}</th> : null}
          </tr>
        </thead>
        <tbody>
          {beds.map(({ bed, block, treatment }) => (
            <tr key={bed}>
              <th scope="row">
                <a href={`/beds/${bed}`}>{nameOf(bed)}</a>
              </th>
              {hasBlocks ? <td>{block}</td> : null}
              {hasTreatments ? <td>{treatment}</td> : null}
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}
