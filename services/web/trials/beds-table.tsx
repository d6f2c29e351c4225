/** The beds of a trial, each with its treatment and the number that stands for it. */
import type { TrialResult } from '../api/types/trial.js';
import { English } from '../parts/notice.js';
import { Wide } from '../parts/wide.js';
import { number } from '../words/numbers.js';
import { say } from '../words/say.js';
import { useBedName } from './bed-names.js';
import { digitsFor, valueText } from './digits.js';

export function BedsTable({ rows, kind }: { rows: TrialResult['rows']; kind: string }) {
  const hasBlocks = rows.some(({ block }) => block !== null);
  const digits = digitsFor(rows);
  const nameOf = useBedName();
  return (
    <>
      <h2>{say('trials.bedsTitle')}</h2>
      <Wide label={say('trials.bedsTitle')}>
        <table class="trial-beds">
          <caption class="aloud">{say('trials.bedsTitle')}</caption>
          <thead>
            <tr>
              <th scope="col">{say('trials.bed')}</th>
              <th scope="col">{say('trials.treatment')}</th>
              {hasBlocks ? <th scope="col">{say('trials.block')}</th> : null}
              <th scope="col">{say('trials.value')}</th>
              <th scope="col">{say('trials.day')}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(({ bed, treatment, block, value, day, reached, missing }) => (
              <tr key={bed}>
                <th scope="row">
                  <a href={`/beds/${bed}`}>{nameOf(bed)}</a>
                </th>
                <td>{treatment}</td>
                {hasBlocks ? <td>{block}</td> : null}
                <td>
                  {value === null ? <English>{missing}</English> : valueText(value, kind, digits)}
                  {reached === false ? ` (${say('trials.notYet')})` : null}
                </td>
                <td>{day === null ? '' : number(day)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </>
  );
}
