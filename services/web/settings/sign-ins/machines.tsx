/** Tokens that machines show instead of a sign-in. */
import { useState } from 'preact/hooks';
import { ROLES } from '../../../core/model/roles.js';
import { roleName } from '../../access/role-words.js';
import { ask } from '../../api/client.js';
import { useSeen } from '../../api/seen.js';
import type { MachineToken } from '../../api/types/access.js';
import { Button } from '../../parts/button.js';
import { TextField } from '../../parts/field.js';
import { Form } from '../../parts/form.js';
import { Shown } from '../../parts/shown.js';
import { say } from '../../words/say.js';
import { Once } from '../once.js';
import { asGiven, type GivenRole, RoleFields } from './role-fields.js';

export function Machines() {
  const seen = useSeen<readonly MachineToken[]>('/api/tokens');
  const [secret, setSecret] = useState<string>();
  const end = async (id: string): Promise<void> => {
    await ask(`/api/tokens/${encodeURIComponent(id)}/revoke`, { method: 'POST', body: {} });
    seen.again();
  };
  return (
    <section class="card" aria-labelledby="machines">
      <h2 id="machines">{say('access.tokens')}</h2>
      <Shown of={seen}>
        {(tokens) => (
          <ul class="rows">
            {tokens
              .filter(({ revokedAt }) => revokedAt === null)
              .map((token) => (
                <li key={token.id}>
                  <p>
                    <b>{token.name}</b>: {roleName(token.role)}
                  </p>
                  <div class="buttons">
                    <Button
                      kind="quiet"
                      label={`${say('access.revoke')}: ${token.name}`}
                      onPress={() => end(token.id)}
                    >
                      {say('access.revoke')}
                    </Button>
                  </div>
                </li>
              ))}
          </ul>
        )}
      </Shown>
      {secret === undefined ? null : (
        <Once text={say('access.tokenOnce')} secret={secret} onHave={() => setSecret(undefined)} />
      )}
      <MakeToken
        onMade={(made) => {
          setSecret(made);
          seen.again();
        }}
      />
    </section>
  );
}

function MakeToken({ onMade }: { onMade: (secret: string) => void }) {
  const [name, setName] = useState('');
  const [given, setGiven] = useState<GivenRole>({ role: 'monitor', beds: [] });
  const send = async (): Promise<void> => {
    const body = { name: name.trim(), ...asGiven(given) };
    onMade((await ask<{ secret: string }>('/api/tokens', { method: 'POST', body })).secret);
    setName('');
  };
  return (
    <Form label={say('access.makeToken')} onSend={send} send={say('access.makeToken')}>
      {(wrongs) => (
        <>
          <TextField label={say('access.tokenName')} value={name} onChange={setName} wrong={wrongs['name']} />
          <RoleFields given={given} onChange={setGiven} roles={ROLES} wrongs={wrongs} />
        </>
      )}
    </Form>
  );
}
