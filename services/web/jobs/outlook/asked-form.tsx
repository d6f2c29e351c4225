import { useState } from 'preact/hooks';
import { Choice, NumberField, TextField } from '../../parts/field.js';
import { Form, type Wrongs } from '../../parts/form.js';
import { keep } from '../../parts/kept.js';
import { say } from '../../words/say.js';
import { EATING_KEPT, EatingFields, eatingKept } from '../stock/eating.js';
import { outlookAddress, PRICES_KEPT, type PricesTyped, pricesKept } from './asked.js';

interface AskedParts {
  readonly bed: string;
  /** Asks an address; rejects with what the service refuses. */
  readonly onAsk: (address: string, money: string) => Promise<void>;
}

/** Who eats, and at which prices. */
export function AskedForm({ bed, onAsk }: AskedParts) {
  const [prices, setPrices] = useState(pricesKept);
  const [eating, setEating] = useState(eatingKept);
  const change = (part: Partial<PricesTyped>): void => setPrices({ ...prices, ...part });
  const send = async (): Promise<void> => {
    await onAsk(outlookAddress(bed, prices, eating), prices.money.trim());
    keep(PRICES_KEPT, prices);
    keep(EATING_KEPT, eating);
  };
  return (
    <Form label={say('outlook.form')} send={say('outlook.ask')} onSend={send}>
      {(wrongs) => (
        <>
          <NumberField
            label={say('outlook.months')}
            whole
            required
            value={prices.months}
            onChange={(months) => change({ months })}
            wrong={wrongs['months']}
          />
          <EatingFields value={eating} onChange={setEating} wrongs={wrongs} />
          <PriceFields {...{ prices, change, wrongs }} />
        </>
      )}
    </Form>
  );
}

interface PriceParts {
  readonly prices: PricesTyped;
  readonly change: (part: Partial<PricesTyped>) => void;
  readonly wrongs: Wrongs;
}

function PriceFields({ prices, change, wrongs }: PriceParts) {
  const { money, per } = prices;
  const field = (
    key: 'price' | 'cost' | 'interest' | 'expected',
    { label, unit, wrong }: { label: string; unit: string; wrong: string | undefined },
  ) => (
    <NumberField
      {...{ label, unit, wrong }}
      value={prices[key]}
      onChange={(text) => change({ [key]: text })}
    />
  );
  return (
    <>
      <h3>{say('outlook.holdOrSell')}</h3>
      <p class="soft">{say('outlook.pricesHint')}</p>
      <div class="abreast">
        <TextField
          label={say('outlook.money')}
          hint={say('outlook.moneyHint')}
          value={money}
          onChange={(text) => change({ money: text })}
        />
        <Choice
          label={say('outlook.per')}
          value={per}
          onChange={(text) => change({ per: text === 'kg' ? 'kg' : 'root' })}
          options={[
            { value: 'root', label: say('outlook.ofRoot') },
            { value: 'kg', label: say('outlook.ofKg') },
          ]}
        />
      </div>
      <div class="abreast">
        {field('price', {
          label: say('outlook.price'),
          unit: money,
          wrong: wrongs['price'] ?? wrongs['pricePerKg'],
        })}
        {field('expected', {
          label: say('outlook.expected'),
          unit: money,
          wrong: wrongs['expectedPrice'],
        })}
        {field('cost', { label: say('outlook.cost'), unit: money, wrong: wrongs['costPerMonth'] })}
        {field('interest', {
          label: say('outlook.interest'),
          unit: '%',
          wrong: wrongs['interestPercent'],
        })}
      </div>
    </>
  );
}
