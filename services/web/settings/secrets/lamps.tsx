/** Lamps and buzzers of a site: they are known by their secrets alone. */
import { useState } from 'preact/hooks';
import { ask } from '../../api/client.js';
import type { SeenAnswer } from '../../api/seen.js';
import type { DeviceSecret, MadeSecret } from '../../api/types/access.js';
import { TextField } from '../../parts/field.js';
import { Form, NotAsExpected } from '../../parts/form.js';
import { say } from '../../words/say.js';
import { idProblem } from '../machine-id.js';
import { siteAddress } from '../of-site.js';
import { DeviceSecretOf, Made } from './device-secret.js';

interface LampsParts {
  readonly site: string;
  readonly seen: SeenAnswer<readonly DeviceSecret[]>;
}

export function Lamps({ site, seen }: LampsParts) {
  const lamps = (seen.answer ?? []).filter(({ kind }) => kind === 'lamp');
  return (
    <section aria-labelledby="lamps">
      <h2 id="lamps">{say('access.lamps')}</h2>
      <p>{say('access.lampsAbout')}</p>
      {lamps.length === 0 ? <p>{say('access.lampsNone')}</p> : null}
      <ul class="settings-list">
        {lamps.map((secret) => (
          <li key={secret.id}>
            <h3>{secret.id}</h3>
            <DeviceSecretOf {...{ site, secret, kind: 'lamp', id: secret.id, again: seen.again }} />
          </li>
        ))}
      </ul>
      <NewLamp site={site} taken={lamps.map(({ id }) => id)} again={seen.again} />
    </section>
  );
}

interface NewParts {
  readonly site: string;
  readonly taken: readonly string[];
  readonly again: () => void;
}

function NewLamp({ site, taken, again }: NewParts) {
  const [name, setName] = useState('');
  const [made, setMade] = useState<MadeSecret>();
  const send = async (): Promise<void> => {
    const id = name.trim();
    const problem = idProblem(id);
    if (problem !== undefined) throw new NotAsExpected({ id: problem });
    // To make one anew would end what the lamp has now: that is asked beside it.
    if (taken.includes(id)) throw new NotAsExpected({ id: say('access.lampTaken') });
    const address = `${siteAddress(site)}/lamps/${encodeURIComponent(id)}/secret`;
    setMade(await ask<MadeSecret>(address, { method: 'POST', body: {} }));
    setName('');
    again();
  };
  return (
    <>
      <Form label={say('access.lampNew')} send={say('access.secretMake')} onSend={send}>
        {(wrongs) => (
          <TextField
            label={say('access.lampName')}
            hint={say('access.lampHint')}
            value={name}
            onChange={setName}
            wrong={wrongs['id']}
          />
        )}
      </Form>
      {made ? <Made made={made} onHave={() => setMade(undefined)} /> : null}
    </>
  );
}
