/** What will be left at the end of each month, and how warm it is taken to be. */
import type { MonthAhead } from '../../api/types/outlook.js';
import { Wide } from '../../parts/wide.js';
import { celsius, number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { dayOf } from '../../words/times.js';

export function MonthsTable({ months }: { months: readonly MonthAhead[] }) {
  return (
    <Wide label={say('outlook.tableLabel')}>
      <table>
        <caption class="aloud">{say('outlook.tableLabel')}</caption>
        <thead>
          <tr>
            <th scope="col">{say('outlook.endOf')}</th>
            <th scope="col" class="number">
              {say('outlook.likely')}
            </th>
            <th scope="col" class="number">
              {say('outlook.between')}
            </th>
            <th scope="col">{say('outlook.warmth')}</th>
          </tr>
        </thead>
        <tbody>
          {months.map((month, index) => (
            <Month key={month.to} month={month} count={index + 1} />
          ))}
        </tbody>
      </table>
    </Wide>
  );
}

function Month({ month, count }: { month: MonthAhead; count: number }) {
  const { to, left, mean_C, warmthFrom, outside } = month;
  return (
    <tr>
      <th scope="row">{say('outlook.month', { count, day: dayOf(to) })}</th>
      <td class="number">{number(Math.round(left.likely))}</td>
      <td class="number">
        {say('outlook.range', {
          low: number(Math.floor(left.low)),
          high: number(Math.ceil(left.high)),
        })}
      </td>
      <td>
        {celsius(mean_C)}, {fromWords(warmthFrom)}
        {outside ? <b> {say('outlook.outside')}</b> : null}
      </td>
    </tr>
  );
}

function fromWords(from: string): string {
  if (from === 'the last week') return say('outlook.fromWeek');
  if (from === 'the same days a year before') return say('outlook.fromYear');
  return say('outlook.fromNothing');
}
