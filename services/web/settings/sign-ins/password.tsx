/** One's own password, changed by the one before. */
import { useState } from 'preact/hooks';
import { setMe } from '../../access/me.js';
import { ask } from '../../api/client.js';
import type { Me } from '../../api/types/access.js';
import { TextField } from '../../parts/field.js';
import { Form } from '../../parts/form.js';
import { Notice } from '../../parts/notice.js';
import { say } from '../../words/say.js';

export function Password() {
  const [before, setBefore] = useState('');
  const [next, setNext] = useState('');
  const [isDone, setDone] = useState(false);
  const send = async (): Promise<void> => {
    setMe(await ask<Me>('/api/me/password', { method: 'PUT', body: { before, next } }));
    setBefore('');
    setNext('');
    setDone(true);
  };
  return (
    <section class="card">
      <h2>{say('access.changePassword')}</h2>
      <Form label={say('access.changePassword')} onSend={send} send={say('access.changePassword')}>
        {(wrongs) => (
          <>
            <TextField
              label={say('access.before')}
              type="password"
              autocomplete="current-password"
              value={before}
              onChange={setBefore}
              wrong={wrongs['before']}
            />
            <TextField
              label={say('access.chooseTitle')}
              hint={say('access.passwordHint')}
              type="password"
              autocomplete="new-password"
              value={next}
              onChange={setNext}
              wrong={wrongs['next']}
            />
          </>
        )}
      </Form>
      <div role="status">{isDone ? <Notice kind="plain">{say('access.done')}</Notice> : null}</div>
    </section>
  );
}
