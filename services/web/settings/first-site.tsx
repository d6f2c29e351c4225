/** The first site: a name and a time zone are enough to begin. */
import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { ask } from '../api/client.js';
import { SelectField, TextField } from '../parts/field.js';
import { expectAll, Form, NotAsExpected } from '../parts/form.js';
import { rememberPerson, usePerson } from '../parts/person.js';
import { say } from '../words/say.js';
import { requireName } from './entry-form.js';
import { idFrom, idProblem } from './machine-id.js';
import { zoneOptions } from './zones.js';

export function FirstSite() {
  const { route } = useLocation();
  const [name, setName] = useState('');
  const [timezone, setTimezone] = useState(Intl.DateTimeFormat().resolvedOptions().timeZone);
  const [by, setBy] = usePerson();
  const take = async (): Promise<void> => {
    const id = idFrom(name);
    expectAll(
      () => {
        if (idProblem(id) !== undefined)
          throw new NotAsExpected({ 'description/site/name': say('settings.nameWrong') });
      },
      () => requireName(by),
    );
    const description = { version: 1, site: { id, name, timezone } };
    await ask('/api/sites', { method: 'POST', body: { by, description }, headers: { 'if-none-match': '*' } });
    rememberPerson(by);
    route('/settings/beds/new');
  };
  return (
    <section aria-labelledby="first-site">
      <h2 id="first-site">{say('settings.firstTitle')}</h2>
      <p>{say('settings.firstAbout')}</p>
      <Form label={say('settings.firstTitle')} send={say('settings.firstSend')} onSend={take}>
        {(wrongs) => (
          <>
            <TextField
              label={say('settings.siteName')}
              value={name}
              onChange={setName}
              wrong={wrongs['description/site/name']}
              required
            />
            <SelectField
              label={say('settings.zone')}
              hint={say('settings.zoneHint')}
              value={timezone}
              onChange={setTimezone}
              wrong={wrongs['description/site/timezone']}
              options={zoneOptions(timezone)}
            />
            <TextField
              label={say('settings.by')}
              hint={say('settings.byHint')}
              value={by}
              onChange={setBy}
              wrong={wrongs['by']}
              required
              autocomplete="name"
            />
          </>
        )}
      </Form>
    </section>
  );
}
