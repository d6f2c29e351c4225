/** Treatments beside each other on one time axis, as a picture and in numbers. */
import { useState } from 'preact/hooks';
import { useSeen } from '../api/seen.js';
import type { Curves, CurvesBy, CurvesOf } from '../api/types/trial.js';
import { Choice } from '../parts/field.js';
import { Fold } from '../parts/fold.js';
import { Shown } from '../parts/shown.js';
import { Wide } from '../parts/wide.js';
import { number } from '../words/numbers.js';
import { say } from '../words/say.js';
import { dayAndMonth } from '../words/times.js';
import { BesidePlot } from './beside-plot.js';

export function Beside({ path }: { path: string }) {
  const [of, setOf] = useState<CurvesOf>('loss');
  const [by, setBy] = useState<CurvesBy>('filling');
  const curves = useSeen<Curves>(`${path}/curves?of=${of}&by=${by}`, { live: ['beds', 'readings'] });
  return (
    <section aria-labelledby="trial-beside">
      <h2 id="trial-beside">{say('trials.beside')}</h2>
      <div class="beside-choices">
        <Choice
          label={say('trials.what')}
          value={of}
          onChange={(value) => setOf(value as CurvesOf)}
          options={[
            { value: 'loss', label: say('trials.loss') },
            { value: 'excess', label: say('trials.excess') },
          ]}
        />
        <Choice
          label={say('trials.time')}
          value={by}
          onChange={(value) => setBy(value as CurvesBy)}
          options={[
            { value: 'filling', label: say('trials.byFilling') },
            { value: 'calendar', label: say('trials.byCalendar') },
          ]}
        />
      </div>
      <Shown of={curves}>{(known) => <Drawn curves={known} of={of} by={by} />}</Shown>
    </section>
  );
}

interface DrawnParts {
  readonly curves: Curves;
  readonly of: CurvesOf;
  readonly by: CurvesBy;
}

function Drawn({ curves, of, by }: DrawnParts) {
  if (!curves.treatments.some(({ points }) => points.length > 0)) return <p>{say('trials.nothingYet')}</p>;
  return (
    <>
      <BesidePlot curves={curves} of={of} by={by} />
      <p class="soft">{say('trials.bars')}</p>
      <Fold title={say('trials.inNumbers')}>
        <InNumbers curves={curves} by={by} />
      </Fold>
    </>
  );
}

/** Of a season day by day every so many rows, and the last. */
const MOST_ROWS = 30;

function InNumbers({ curves: { treatments }, by }: Omit<DrawnParts, 'of'>) {
  const times = [...new Set(treatments.flatMap(({ points }) => points.map(({ time }) => time)))].sort(
    (one, other) => one - other,
  );
  const every = Math.ceil(times.length / MOST_ROWS);
  const shown = times.filter((_, at) => at % every === 0 || at === times.length - 1);
  return (
    <Wide label={say('trials.inNumbers')}>
      <table>
        <caption class="aloud">{say('trials.inNumbers')}</caption>
        <thead>
          <tr>
            <th scope="col">{say('trials.day')}</th>
            {treatments.map(({ treatment }) => (
              <th scope="col" key={treatment}>
                {treatment}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {shown.map((time) => (
            <tr key={time}>
              <th scope="row">{by === 'filling' ? number(time) : dayAndMonth(time)}</th>
              {treatments.map(({ treatment, points }) => (
                <td key={treatment}>{textAt(points.find((point) => point.time === time))}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}

function textAt(point: Curves['treatments'][number]['points'][number] | undefined): string {
  if (point === undefined) return '';
  const { mean, low, high } = point;
  if (low === null || high === null) return number(mean, 1);
  return say('trials.fromToValue', { value: number(mean, 1), low: number(low, 1), high: number(high, 1) });
}
