/** By how much the price must rise until holding gives as much as selling now. */
import type { Held, Outlook } from '../../api/types/outlook.js';
import { Wide } from '../../parts/wide.js';
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { percent } from '../stock/bands.js';

export function HoldOrSell({ outlook, money }: { outlook: Outlook; money: string }) {
  const { holdOrSell, priceOfRoot } = outlook;
  if (holdOrSell === null || priceOfRoot === null) return null;
  const isExpected = holdOrSell.some(({ holding }) => holding !== null);
  return (
    <section>
      <h2>{say('outlook.holdOrSell')}</h2>
      <p>{say('outlook.heldHint', { price: inMoney(priceOfRoot, money) })}</p>
      <Wide label={say('outlook.heldLabel')}>
        <table>
          <caption class="aloud">{say('outlook.heldLabel')}</caption>
          <thead>
            <tr>
              <th scope="col">{say('outlook.soldAfter')}</th>
              <th scope="col" class="number">
                {say('outlook.mustRise')}
              </th>
              <th scope="col" class="number">
                {say('outlook.ifFewMany')}
              </th>
              <th scope="col" class="number">
                {say('outlook.thatIs')}
              </th>
              {isExpected ? <th scope="col">{say('outlook.atExpected')}</th> : null}
            </tr>
          </thead>
          <tbody>
            {holdOrSell.map((held) => (
              <Row key={held.month} {...{ held, money, isExpected }} />
            ))}
          </tbody>
        </table>
      </Wide>
      <p class="soft">{say('outlook.noForecast')}</p>
    </section>
  );
}

function Row({ held, money, isExpected }: { held: Held; money: string; isExpected: boolean }) {
  const { month, rise, breakEvenPrice, holding } = held;
  return (
    <tr>
      <th scope="row">{say('outlook.afterMonths', { count: month })}</th>
      <td class="number">{riseInWords(rise.likely)}</td>
      <td class="number">
        {say('outlook.riseRange', {
          low: riseInWords(rise.ifFewAreLost),
          high: riseInWords(rise.ifManyAreLost),
        })}
      </td>
      <td class="number">
        {breakEvenPrice === null ? say('outlook.never') : inMoney(breakEvenPrice, money)}
      </td>
      {isExpected ? <td>{holding === null ? '' : holdingInWords(holding)}</td> : null}
    </tr>
  );
}

const riseInWords = (rise: number | null): string =>
  rise === null ? say('outlook.never') : say('outlook.risePercent', { rise: percent(rise) });

const holdingInWords = (holding: NonNullable<Held['holding']>): string =>
  ({
    pays: say('outlook.pays'),
    'does-not-pay': say('outlook.paysNot'),
    open: say('outlook.open'),
  })[holding];

/** A plain number in the person's own word for their money. */
function inMoney(value: number, money: string): string {
  const text = number(value, digitsOf(value));
  return money === '' ? text : say('outlook.inMoney', { value: text, money });
}

/** Three digits that count, none behind a whole number. */
const digitsOf = (value: number): number =>
  Number.isInteger(value) ? 0 : value < 10 ? 2 : value < 100 ? 1 : 0;
