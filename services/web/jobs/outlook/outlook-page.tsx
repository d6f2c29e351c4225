import { useRef, useState } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import { NoNetwork, Refusal } from '../../api/client.js';
import { askAndKeep, useSeen } from '../../api/seen.js';
import type { Outlook } from '../../api/types/outlook.js';
import { ButtonLink } from '../../parts/button.js';
import { Shown } from '../../parts/shown.js';
import { Title } from '../../parts/title.js';
import { say } from '../../words/say.js';
import { dayOf } from '../../words/times.js';
import { EnglishList } from '../english-list.js';
import { rootsInWords, weeksInWords } from '../stock/bands.js';
import { eatingKept } from '../stock/eating.js';
import '../stock/stock.css';
import { outlookAddress, pricesKept } from './asked.js';
import { AskedForm } from './asked-form.js';
import { HoldOrSell } from './held.js';
import { LeftPlot } from './left-plot.js';
import { MonthsTable } from './months-table.js';
import './outlook.css';

/** What will be left of a bed, for how long it feeds, and whether holding pays. */
export default function OutlookPage() {
  const id = useRoute().params['bed'] ?? '';
  const bed = useSeen<{ readonly name: string }>(`/api/beds/${encodeURIComponent(id)}`);
  return (
    <>
      <Title>{say('outlook.title', { bed: bed.answer?.name ?? id })}</Title>
      <OutlookOf key={id} bed={id} />
    </>
  );
}

/** What was asked before on this device, as far as it can still be read; else what needs no answer. */
function firstAddress(bed: string): string {
  try {
    return outlookAddress(bed, pricesKept(), eatingKept());
  } catch {
    return `/api/beds/${encodeURIComponent(bed)}/outlook`;
  }
}

function OutlookOf({ bed }: { bed: string }) {
  const [{ address, money }, setAsked] = useState(() => ({
    ...{ address: firstAddress(bed), money: pricesKept().money.trim() },
  }));
  const told = useRef<HTMLDivElement>(null);
  const seen = useSeen<Outlook>(address, { live: ['beds'], bed });
  const ask = async (next: string, nextMoney: string): Promise<void> => {
    try {
      await askAndKeep(next);
    } catch (error) {
      // What was last seen of it is shown.
      if (!(error instanceof NoNetwork)) throw error;
    }
    setAsked({ address: next, money: nextMoney });
    told.current?.focus();
  };
  return (
    <div class="outlook">
      <div ref={told} tabIndex={-1}>
        {seen.refusal instanceof Refusal && seen.refusal.status === 422 && seen.answer === undefined ? (
          <Nothing bed={bed} />
        ) : (
          <Shown of={seen} thing={{ kind: 'bed', id: bed }}>
            {(outlook) => <Told outlook={outlook} money={money} />}
          </Shown>
        )}
      </div>
      <section>
        <h2>{say('outlook.form')}</h2>
        <AskedForm bed={bed} onAsk={ask} />
      </section>
    </div>
  );
}

/** Nobody has written down what went in. */
function Nothing({ bed }: { bed: string }) {
  return (
    <>
      <p>{say('outlook.nothingIn')}</p>
      <ButtonLink href={`/jobs/fill/${bed}`}>{say('stock.toFilling')}</ButtonLink>
    </>
  );
}

function Told({ outlook, money }: { outlook: Outlook; money: string }) {
  const { roots, months, since, weeksOfFood, rootsPerMonth, notes } = outlook;
  return (
    <>
      <section>
        <h2>{say('outlook.leftTitle')}</h2>
        <p>{say('outlook.leftNow', { roots, day: dayOf(since) })}</p>
        <LeftPlot outlook={outlook} />
        <p class="soft">{say('outlook.bandHint')}</p>
        <MonthsTable months={months} />
        <div role="status">
          {weeksOfFood ? <p class="said">{weeksInWords(weeksOfFood)}</p> : null}
          <p>{say('stock.perMonth', { roots: rootsInWords(rootsPerMonth) })}</p>
        </div>
      </section>
      <HoldOrSell outlook={outlook} money={money} />
      <section>
        <h2>{say('stock.restsOn')}</h2>
        <EnglishList texts={notes} />
      </section>
    </>
  );
}
