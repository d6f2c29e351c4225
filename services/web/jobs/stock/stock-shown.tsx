/** The stock of one bed on the page. */
import { useState } from 'preact/hooks';
import { OnlyWhoMay } from '../../access/only-who-may.js';
import type { Taken } from '../../api/send-or-keep.js';
import type { EntryBody, Stock, Stocked } from '../../api/types/stock.js';
import { ButtonLink } from '../../parts/button.js';
import { Notice } from '../../parts/notice.js';
import { say } from '../../words/say.js';
import { WaitingHere } from '../waiting-here.js';
import { Entries } from './entries.js';
import { EntryForm, type EntryTyped, entryAgain } from './entry-form.js';
import { Food } from './food.js';
import { Left, WhereItWent } from './left.js';
import { Losses } from './losses.js';

interface StockParts {
  readonly bed: string;
  readonly name: string;
  /** People of the site. */
  readonly names: readonly string[];
  readonly path: string;
  readonly stock: Stock;
  /** The same with what was asked about food. */
  readonly food: Stock;
  readonly again: () => void;
  readonly onAsk: (query: string) => Promise<void>;
}

export function StockShown({ bed, name, names, path, stock, food, again, onAsk }: StockParts) {
  const [taken, setTaken] = useState<Taken<Stocked>>();
  const [back, setBack] = useState<Taken<Stocked>>();
  const [begin, setBegin] = useState<EntryTyped>();
  return (
    <>
      <WaitingHere
        path={path}
        onSent={again}
        onMend={({ body }) => setBegin(entryAgain(body as EntryBody))}
      />
      <div class="stock">
        <div>
          <WhatIsLeft bed={bed} stock={stock} />
          <section>
            <h2>{say('stock.writeDown')}</h2>
            <OnlyWhoMay action="write-down" bed={bed}>
              <EntryForm
                key={begin?.id}
                {...{ bed, name, names, begin, left: stock.left, filledAt: lastFilling(stock) }}
                onTaken={(outcome) => {
                  setTaken(outcome);
                  if (outcome) again();
                }}
              />
              <Done taken={taken} />
            </OnlyWhoMay>
          </section>
        </div>
        <div>
          {stock.left === null ? null : <Food stock={food} onAsk={onAsk} />}
          <Losses losses={stock.losses} />
        </div>
        <section>
          <h2>{say('stock.entries')}</h2>
          <Done taken={back} />
          <Entries
            {...{ bed, name, names, entries: stock.entries }}
            onTaken={(outcome) => {
              setBack(outcome);
              again();
            }}
          />
        </section>
      </div>
    </>
  );
}

/** When the last filling was that was not taken back; null where none was written down. */
function lastFilling({ entries }: Stock): string | null {
  const takenBack = new Set(entries.map(({ of }) => of));
  const times = entries
    .filter(({ id, kind, reason }) => kind === 'in' && reason === 'filled' && !takenBack.has(id))
    .map(({ at }) => at);
  return times.sort((one, other) => Date.parse(other) - Date.parse(one))[0] ?? null;
}

function WhatIsLeft({ bed, stock }: { bed: string; stock: Stock }) {
  return (
    <section>
      <h2>{say('stock.leftTitle')}</h2>
      <Left stock={stock} />
      <WhereItWent stock={stock} />
      {stock.left === null ? (
        <ButtonLink href={`/jobs/fill/${bed}`}>{say('stock.toFilling')}</ButtonLink>
      ) : (
        <p>
          <a href={`/jobs/outlook/${bed}`}>{say('stock.toOutlook')}</a>
        </p>
      )}
    </section>
  );
}

function Done({ taken }: { taken: Taken<Stocked> | undefined }) {
  return (
    <div role="status">
      {taken === undefined ? null : (
        <Notice kind="plain" title={taken.kept ? say('parts.keptTitle') : say('stock.takenTitle')}>
          {taken.kept ? <p>{say('parts.kept')}</p> : null}
          {!taken.kept && taken.answer.left !== null ? (
            <p>{say('stock.taken', { roots: taken.answer.left })}</p>
          ) : null}
        </Notice>
      )}
    </div>
  );
}
