/** For how many weeks what is left feeds so many, and how much may be sold. */
import { useState } from 'preact/hooks';
import type { Stock } from '../../api/types/stock.js';
import { NumberField } from '../../parts/field.js';
import { Fold } from '../../parts/fold.js';
import { Form } from '../../parts/form.js';
import { keep } from '../../parts/kept.js';
import { Typed } from '../../parts/typed.js';
import { say } from '../../words/say.js';
import { EnglishList } from '../english-list.js';
import { rootsInWords, weeksInWords } from './bands.js';
import { askEating, EATING_KEPT, EatingFields, type EatingTyped, eatingKept, MONTHS } from './eating.js';

/** The question about food as it stands in the address of the stock; empty where none was asked. */
export function foodQuery(eating: EatingTyped, typed: Typed = new Typed()): string {
  const query = new URLSearchParams();
  askEating(typed, eating, query);
  const months = typed.maybe('months', eating.months, MONTHS);
  if (months !== undefined) query.set('months', String(months));
  typed.done();
  return query.size === 0 ? '' : `?${query}`;
}

/** What was asked before on this device, as far as it can still be read. */
export function keptFoodQuery(): string {
  try {
    return foodQuery(eatingKept());
  } catch {
    return '';
  }
}

interface FoodParts {
  readonly stock: Stock;
  /** Asks the service; rejects with what it refuses. */
  readonly onAsk: (query: string) => Promise<void>;
}

export function Food({ stock, onAsk }: FoodParts) {
  const [eating, change] = useState(eatingKept);
  const send = async (): Promise<void> => {
    const query = foodQuery(eating);
    await onAsk(query);
    keep(EATING_KEPT, eating);
  };
  const { weeksOfFood, rootsPerMonth, notes } = stock;
  return (
    <section>
      <h2>{say('stock.food')}</h2>
      <div role="status">
        {weeksOfFood ? <p class="said">{weeksInWords(weeksOfFood)}</p> : null}
        {rootsPerMonth ? (
          <p class="said">{say('stock.perMonth', { roots: rootsInWords(rootsPerMonth) })}</p>
        ) : null}
      </div>
      <Form label={say('stock.food')} send={say('stock.ask')} onSend={send}>
        {(wrongs) => (
          <>
            <EatingFields value={eating} onChange={change} wrongs={wrongs} />
            <NumberField
              label={say('stock.months')}
              hint={say('stock.monthsHint')}
              whole
              value={eating.months}
              onChange={(months) => change({ ...eating, months })}
              wrong={wrongs['months']}
            />
          </>
        )}
      </Form>
      {notes.length > 0 ? (
        <Fold title={say('stock.restsOn')}>
          <EnglishList texts={notes} />
        </Fold>
      ) : null}
    </section>
  );
}
