/** A buried probe beside a travelling reference. */
import { useState } from 'preact/hooks';
import { ask } from '../api/client.js';
import { useSeen } from '../api/seen.js';
import type { Due, FieldCheck, Quantity } from '../api/types/bench.js';
import { Choice, SelectField, TextField } from '../parts/field.js';
import { Form, NotAsExpected } from '../parts/form.js';
import { Notice } from '../parts/notice.js';
import { rememberPerson, usePerson } from '../parts/person.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { say } from '../words/say.js';
import { dayAndTime } from '../words/times.js';
import { zonedText, zonedTime } from '../words/zoned.js';
import './bench.css';
import { difference, measure, nameOf } from './measure.js';

const DAY_ms = 86_400_000;

const VERDICTS = {
  agrees: 'bench.besideAgree',
  disagrees: 'bench.besideDiffer',
  undecided: 'bench.besideUnclear',
} as const;

export default function BesidePage() {
  const checks = useSeen<FieldCheck[]>('/api/field-checks');
  const [done, setDone] = useState<FieldCheck>();
  return (
    <>
      <Title>{say('bench.besideTitle')}</Title>
      <p>
        <a class="row-link" href="/bench">
          {say('parts.back')}
        </a>
      </p>
      <section class="card">
        <p>{say('bench.besideIntro')}</p>
        <Compare
          onDone={(check) => {
            setDone(check);
            checks.again();
          }}
        />
        {done ? (
          <Notice
            kind="done"
            title={say(VERDICTS[done.verdict], { tolerance: measure(done.quantity, done.bound) })}
          >
            <p>{differenceWords(done)}</p>
          </Notice>
        ) : null}
      </section>
      <section class="card">
        <h2>{say('bench.earlierChecks')}</h2>
        <Shown of={checks}>{(rows) => <Earlier checks={rows} />}</Shown>
      </section>
    </>
  );
}

const differenceWords = ({ quantity, difference: value, expandedUncertainty, pairs }: FieldCheck): string =>
  say('bench.besideDifference', {
    value: difference(quantity, value),
    uncertainty: measure(quantity, expandedUncertainty),
    pairs,
  });

function Earlier({ checks }: { checks: readonly FieldCheck[] }) {
  if (checks.length === 0) return <p>{say('parts.none')}</p>;
  return (
    <ul>
      {checks.map((check) => (
        <li key={check.id}>
          <b>{`${check.probe}, ${nameOf(check.quantity)}, ${dayAndTime(check.to)}`}</b>{' '}
          {say(VERDICTS[check.verdict], { tolerance: measure(check.quantity, check.bound) })}{' '}
          {differenceWords(check)}
        </li>
      ))}
    </ul>
  );
}

const asOption = (name: string) => ({ value: name, label: name });

function Compare({ onDone }: { onDone: (check: FieldCheck) => void }) {
  const due = useSeen<Due[]>('/api/calibrations/due').answer ?? [];
  const names = [...new Set(due.map(({ probe }) => probe))];
  const [probe, setProbe] = useState('');
  const [reference, setReference] = useState('');
  const [quantity, setQuantity] = useState<Quantity>('temperature');
  const [from, setFrom] = useState(zonedText(Date.now() - DAY_ms));
  const [to, setTo] = useState(zonedText(Date.now()));
  const [by, setBy] = usePerson();
  const none = { value: '', label: say('bench.chooseProbe') };
  const send = async (): Promise<void> => {
    const missing = Object.entries({ probe, reference }).filter(([, name]) => name === '');
    if (missing.length > 0)
      throw new NotAsExpected(Object.fromEntries(missing.map(([key]) => [key, say('bench.chooseProbe')])));
    const site = due.find((one) => one.probe === probe)?.site ?? due[0]?.site ?? '';
    const body = { site, probe, reference, quantity, from: zonedTime(from), to: zonedTime(to), by };
    onDone(await ask<FieldCheck>('/api/field-checks', { method: 'POST', body }));
    rememberPerson(by);
  };
  return (
    <Form onSend={send} send={say('bench.besideSend')} label={say('bench.besideTitle')}>
      {(wrongs) => (
        <>
          <SelectField
            label={say('bench.besideProbe')}
            value={probe}
            onChange={setProbe}
            options={[none, ...names.filter((name) => name !== reference).map(asOption)]}
            wrong={wrongs['probe']}
            required
          />
          <SelectField
            label={say('bench.besideReference')}
            value={reference}
            onChange={setReference}
            options={[none, ...names.filter((name) => name !== probe).map(asOption)]}
            wrong={wrongs['reference']}
            required
          />
          <Choice
            label={say('bench.quantity')}
            value={quantity}
            onChange={(value) => setQuantity(value as Quantity)}
            options={(['temperature', 'humidity'] as const).map((value) => ({ value, label: nameOf(value) }))}
          />
          <TextField
            type="datetime-local"
            label={say('bench.besideFrom')}
            value={from}
            onChange={setFrom}
            wrong={wrongs['from']}
            required
          />
          <TextField
            type="datetime-local"
            label={say('bench.besideTo')}
            value={to}
            onChange={setTo}
            wrong={wrongs['to']}
            required
          />
          <TextField label={say('bench.by')} value={by} onChange={setBy} wrong={wrongs['by']} required />
        </>
      )}
    </Form>
  );
}
