/** Tries whether messages arrive: a marked test to everybody who would be told of a bed, and what became of it, live. */
import { useEffect, useState } from 'preact/hooks';
import { ask } from '../api/client.js';
import { useSeen } from '../api/seen.js';
import type { Drill, DrillMessage } from '../api/types/settings.js';
import type { SiteDescription } from '../api/types/site.js';
import { SelectField, TextField } from '../parts/field.js';
import { Form } from '../parts/form.js';
import { Notice } from '../parts/notice.js';
import { rememberPerson, usePerson } from '../parts/person.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { number } from '../words/numbers.js';
import { say, wordFor } from '../words/say.js';
import { Back } from './back.js';
import { OfSite, siteAddress } from './of-site.js';
import './settings.css';

/** How often it is asked what became of it, ms, and for how long: by then who did not get it is to be asked. */
const LOOK_ms = 2_000;
const LOOKED_ms = 10 * 60_000;

export default function DrillPage() {
  return (
    <>
      <Back to="/settings/people" text={say('settings.toPeople')} />
      <Title>{say('settings.drill')}</Title>
      <p>{say('settings.drillAbout')}</p>
      <OfSite>{(site) => <DrillOf site={site.id} />}</OfSite>
    </>
  );
}

function DrillOf({ site }: { site: string }) {
  const whole = useSeen<SiteDescription>(siteAddress(site));
  return <Shown of={whole}>{(description) => <DrillForm whole={description} />}</Shown>;
}

function DrillForm({ whole }: { whole: SiteDescription }) {
  const [bed, setBed] = useState(whole.beds[0]?.id ?? '');
  const [by, setBy] = usePerson();
  const [begun, setBegun] = useState<Drill>();
  if (whole.beds.length === 0) return <p>{say('settings.noBedYet')}</p>;
  const begin = async (): Promise<void> => {
    setBegun(undefined);
    setBegun(await ask<Drill>('/api/drills', { method: 'POST', body: { bed, by } }));
    rememberPerson(by);
  };
  return (
    <>
      <Form label={say('settings.drill')} send={say('settings.drillSend')} onSend={begin}>
        {(wrongs) => (
          <>
            <SelectField
              label={say('settings.drillBed')}
              value={bed}
              onChange={setBed}
              wrong={wrongs['bed']}
              options={whole.beds.map(({ id, name }) => ({ value: id, label: name }))}
            />
            <TextField
              label={say('settings.by')}
              hint={say('settings.drillByHint')}
              value={by}
              onChange={setBy}
              wrong={wrongs['by']}
              required
              autocomplete="name"
            />
          </>
        )}
      </Form>
      {begun ? <Outcome key={begun.id} begun={begun} whole={whole} /> : null}
    </>
  );
}

function Outcome({ begun, whole }: { begun: Drill; whole: SiteDescription }) {
  const [drill, setDrill] = useState(begun);
  const isOpen = drill.messages.some(({ after_s, gone }) => after_s === null && gone);
  useEffect(() => {
    const until = Date.now() + LOOKED_ms;
    const timer = setInterval(() => {
      if (Date.now() > until) clearInterval(timer);
      ask<Drill>(`/api/drills/${begun.id}`).then(setDrill, () => undefined);
    }, LOOK_ms);
    return () => clearInterval(timer);
  }, [begun.id]);
  const nameOf = (id: string): string =>
    id === 'site' ? say('settings.drillSite') : (whole.people.find((one) => one.id === id)?.name ?? id);
  return (
    <section aria-labelledby="drill-outcome">
      <h2 id="drill-outcome">{say('settings.drillOutcome')}</h2>
      <p role="status">{say(isOpen ? 'settings.drillUnderWay' : 'settings.drillDone')}</p>
      <ul class="settings-list">
        {drill.messages.map((message, index) => (
          <li key={`${index} ${message.person} ${message.via}`}>
            <p>
              <b>{nameOf(message.person)}</b>, {wordFor('settings', `via_${message.via}`) ?? message.via}
            </p>
            <p class={message.error === null ? undefined : 'waits'}>{wordsFor(message)}</p>
            {message.error === null ? null : <p lang="en">{message.error}</p>}
          </li>
        ))}
      </ul>
      {drill.without.length === 0 ? null : (
        <Notice kind="caution">
          <p>{say('settings.drillWithout', { people: drill.without.map(nameOf).join(', ') })}</p>
        </Notice>
      )}
    </section>
  );
}

function wordsFor({ after_s, received_s, gone }: DrillMessage): string {
  if (received_s !== null) return say('settings.drillReceived', { seconds: number(received_s) });
  if (after_s !== null) return say('settings.drillHanded', { seconds: number(after_s) });
  return say(gone ? 'settings.drillWaits' : 'settings.drillFailed');
}
