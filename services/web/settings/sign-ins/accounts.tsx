/** Who may sign in, each with their role; letting somebody in. */
import { useState } from 'preact/hooks';
import { PERSON_ROLES } from '../../../core/model/roles.js';
import { ask } from '../../api/client.js';
import { useSeen } from '../../api/seen.js';
import type { Account } from '../../api/types/access.js';
import { TextField } from '../../parts/field.js';
import { Form } from '../../parts/form.js';
import { Shown } from '../../parts/shown.js';
import { say } from '../../words/say.js';
import { Once } from '../once.js';
import { AccountLine } from './account-line.js';
import { asGiven, type GivenRole, RoleFields } from './role-fields.js';

interface MadeLink {
  readonly name: string;
  readonly link: string;
}

export function Accounts() {
  const seen = useSeen<readonly Account[]>('/api/accounts', { live: ['access'] });
  const [made, setMade] = useState<MadeLink>();
  const linkFor = async (name: string): Promise<void> => {
    const path = `/api/accounts/${encodeURIComponent(name)}/link`;
    setMade({ name, ...(await ask<{ link: string }>(path, { method: 'POST', body: {} })) });
  };
  return (
    <section class="card" aria-labelledby="accounts">
      <h2 id="accounts">{say('access.whoMay')}</h2>
      <Shown of={seen}>
        {(accounts) => (
          <ul class="rows">
            {accounts
              .filter(({ closedAt }) => closedAt === null)
              .map((account) => (
                <AccountLine key={account.name} {...{ account, linkFor, again: seen.again }} />
              ))}
          </ul>
        )}
      </Shown>
      {made ? (
        <Once
          text={say('access.linkOnce', { name: made.name })}
          named={say('access.link')}
          secret={made.link}
          onHave={() => setMade(undefined)}
        />
      ) : null}
      <h3>{say('access.letTitle')}</h3>
      <LetIn
        onIn={async (name) => {
          seen.again();
          await linkFor(name);
        }}
      />
    </section>
  );
}

const NEW: GivenRole = { role: 'keeper', beds: [] };

function LetIn({ onIn }: { onIn: (name: string) => Promise<void> }) {
  const [name, setName] = useState('');
  const [given, setGiven] = useState(NEW);
  const send = async (): Promise<void> => {
    const whose = name.trim();
    const body = { shown: whose, ...asGiven(given) };
    await ask(`/api/accounts/${encodeURIComponent(whose)}`, { method: 'PUT', body });
    setName('');
    setGiven(NEW);
    await onIn(whose);
  };
  return (
    <Form label={say('access.letTitle')} onSend={send} send={say('access.let')}>
      {(wrongs) => (
        <>
          <TextField
            label={say('access.name')}
            hint={say('access.nameHint')}
            value={name}
            onChange={setName}
            wrong={wrongs['name']}
          />
          <RoleFields given={given} onChange={setGiven} roles={PERSON_ROLES} wrongs={wrongs} />
        </>
      )}
    </Form>
  );
}
