/** The values in view as a table, and the readings that are not used with the reason of each. */
import { useState } from 'preact/hooks';
import { Wide } from '../../parts/wide.js';
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { dayAndTime } from '../../words/times.js';
import type { Flagged } from './columns.js';
import { type SeriesModel, useSettled } from './model.js';
import { reasonWords } from './reading.js';
import { HOUR_ms } from './span.js';
import { type Around, valuesAt } from './values-at.js';

/** Rows of the table at the most. */
const MOST_ROWS = 48;

/** Readings that are not used, at the most; the newest. */
const MOST_FLAGGED = 40;

export function ValuesTable({ model }: { model: SeriesModel }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <details class="fold" open={isOpen} onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>{say('series.table')}</summary>
      {isOpen ? <Rows model={model} /> : null}
    </details>
  );
}

/** Whole hours of the clock, as many as fit. */
function timesIn({ from, to }: { readonly from: number; readonly to: number }): number[] {
  const step = HOUR_ms * Math.max(1, Math.ceil((to - from) / HOUR_ms / MOST_ROWS));
  const first = Math.ceil(from / step) * step;
  return Array.from(
    { length: Math.max(0, Math.floor((to - first) / step) + 1) },
    (_, at) => first + at * step,
  );
}

function Rows({ model }: { model: SeriesModel }) {
  useSettled(model);
  const { front } = model.choice;
  const times = timesIn(model.settledView);
  return (
    <Wide label={say('series.tableOf', { probe: front })}>
      <table class="series-values">
        <caption class="aloud">{say('series.tableOf', { probe: front })}</caption>
        <thead>
          <tr>
            <th scope="col">{say('series.columnTime')}</th>
            <th scope="col" class="number">
              {say('series.columnTemperature')}
            </th>
            <th scope="col" class="number">
              {say('series.columnExpected')}
            </th>
            <th scope="col" class="number">
              {say('series.columnExcess')}
            </th>
            <th scope="col" class="number">
              {say('series.columnHumidity')}
            </th>
          </tr>
        </thead>
        <tbody>
          {times.map((at) => (
            <Row key={at} model={model} probe={front} at={at} />
          ))}
        </tbody>
      </table>
    </Wide>
  );
}

function Row({ model, probe, at }: { model: SeriesModel; probe: string; at: number }) {
  const { temperature, humidity: moist, expected_C, band_C, excess_C } = valuesAt(model, probe, at);
  return (
    <tr>
      <th scope="row">{dayAndTime(at)}</th>
      <td class="number">{cell(temperature, (value) => number(value, 1))}</td>
      <td class="number">
        {expected_C === undefined
          ? say('parts.unknown')
          : say('series.giveOrTake', { value: number(expected_C, 1), band: number(band_C ?? 0, 1) })}
      </td>
      <td class="number">{excess_C === undefined ? say('parts.unknown') : number(tenth(excess_C), 1)}</td>
      <td class="number">{cell(moist, (value) => number(value))}</td>
    </tr>
  );
}

/** Without the sign that a rounded nothing would keep. */
const tenth = (value: number): number => Math.round(10 * value) / 10 + 0;

function cell(around: Around | undefined, written: (value: number) => string): string {
  if (!around) return say('parts.unknown');
  const [low, high] = around.map(written) as [string, string];
  return low === high ? low : say('series.fromTo', { low, high });
}

/** Those of the probe in front. */
export function FlaggedList({ model }: { model: SeriesModel }) {
  useSettled(model);
  const { front } = model.choice;
  const flagged = flaggedIn(model, front);
  if (flagged.length === 0) return null;
  return (
    <details class="fold">
      <summary>{say('series.flagged', { probe: front, count: flagged.length })}</summary>
      <p>{say('series.flaggedMeans')}</p>
      <ul>
        {flagged.slice(-MOST_FLAGGED).map(({ at, quantity, value, reason }) => (
          <li key={`${at} ${quantity}`}>
            {say(`series.flagged_${quantity}`, {
              ...{ when: dayAndTime(at), value: number(value, 1), why: reasonWords(reason) },
            })}
          </li>
        ))}
      </ul>
    </details>
  );
}

function flaggedIn(model: SeriesModel, probe: string): Flagged[] {
  return model
    .pieces(probe, model.settledView)
    .flatMap(({ columns, clip }) => columns.flagged.filter(({ at }) => at >= clip.from && at < clip.to));
}
