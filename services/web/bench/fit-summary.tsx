import type { Calibration } from '../api/types/bench.js';
import { English, Notice } from '../parts/notice.js';
import { say } from '../words/say.js';
import { difference, measure } from './measure.js';

/** What a calibration says, in sentences. */
export function FitSummary({ record }: { record: Calibration }) {
  const { quantity, fit, uncertainty, asFound, cautions } = record;
  return (
    <>
      <ul>
        <li>
          {say('bench.corrects', {
            offset: difference(quantity, fit.coefficients[0] ?? 0),
            at: measure(quantity, fit.centre),
          })}
        </li>
        <li>
          {say('bench.givesUncertainty', {
            value: measure(quantity, uncertainty.expanded),
            at: measure(quantity, uncertainty.indicated),
          })}
        </li>
        <li>
          {say('bench.asFound', { value: difference(quantity, asFound.largest) })}{' '}
          {asFound.exceeds
            ? say('bench.asFoundExceeds', { tolerance: measure(quantity, asFound.tolerance) })
            : null}
        </li>
        <li>
          {say('bench.fitReason')}: <English>{fit.reason}</English>
        </li>
        <li>
          {say('bench.beyondRange', {
            low: measure(quantity, fit.range[0] ?? 0),
            high: measure(quantity, fit.range[1] ?? 0),
          })}
        </li>
      </ul>
      {cautions.length > 0 ? (
        <Notice kind="caution">
          <ul lang="en">
            {cautions.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </Notice>
      ) : null}
    </>
  );
}
