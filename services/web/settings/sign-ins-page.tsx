/** Who may sign in, where they are signed in, machines, one's own password, and what was changed. */
import { useState } from 'preact/hooks';
import { PERSON_ROLES, ROLES, type Role } from '../../core/model/roles.js';
import { setMe, useMe } from '../access/me.js';
import { ask } from '../api/client.js';
import { useSeen } from '../api/seen.js';
import type { Account, AuditEntry, MachineToken, Me, Session } from '../api/types/access.js';
import { Button } from '../parts/button.js';
import { SelectField, TextField } from '../parts/field.js';
import { Form } from '../parts/form.js';
import { Notice } from '../parts/notice.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { When } from '../parts/when.js';
import { say } from '../words/say.js';
import { Back } from './back.js';
import './settings.css';

const ROLE_WORDS = {
  keeper: 'access.roleKeeper',
  technician: 'access.roleTechnician',
  researcher: 'access.roleResearcher',
  steward: 'access.roleSteward',
  gateway: 'access.roleGateway',
  monitor: 'access.roleMonitor',
} as const;

const optionsOf = (roles: readonly Role[]) =>
  roles.map((role) => ({ value: role, label: say(ROLE_WORDS[role]) }));

const bedsIn = (text: string): string[] => text.split(/[\s,]+/).filter((id) => id !== '');

export default function SignInsPage() {
  const me = useMe();
  return (
    <>
      <Back />
      <Title>{say('access.signIns')}</Title>
      {me?.access === 'open' ? <Notice kind="caution">{say('access.openNote')}</Notice> : null}
      {me?.may.includes('administer') ? <People /> : null}
      {me?.may.includes('own') ? <Sessions all={me.may.includes('administer')} /> : null}
      {me?.may.includes('administer') ? <Machines /> : null}
      {me?.may.includes('own') ? <Password /> : null}
      {me?.may.includes('audit') ? <Trail /> : null}
    </>
  );
}

function People() {
  const seen = useSeen<readonly Account[]>('/api/accounts');
  const [name, setName] = useState('');
  const [role, setRole] = useState('keeper');
  const [beds, setBeds] = useState('');
  const [link, setLink] = useState<string>();
  const linkFor = async (whose: string): Promise<void> =>
    setLink((await ask<{ link: string }>(`/api/accounts/${whose}/link`, { method: 'POST', body: {} })).link);
  const let_ = async (): Promise<void> => {
    const whose = name.trim();
    const body = { shown: whose, role, beds: bedsIn(beds) };
    await ask(`/api/accounts/${encodeURIComponent(whose)}`, { method: 'PUT', body });
    await linkFor(whose);
    seen.again();
  };
  const close = async ({ name: whose, shown, role: had, beds: kept, person }: Account): Promise<void> => {
    const body = { shown, role: had, beds: kept, person, closed: true };
    await ask(`/api/accounts/${whose}`, { method: 'PUT', body });
    seen.again();
  };
  return (
    <section class="card">
      <h2>{say('access.whoMay')}</h2>
      <Shown of={seen}>
        {(accounts) => (
          <ul>
            {accounts
              .filter(({ closedAt }) => closedAt === null)
              .map((account) => (
                <li key={account.name}>
                  {account.shown}: {say(ROLE_WORDS[account.role])} {account.beds.join(', ')}{' '}
                  <Button
                    kind="quiet"
                    label={`${say('access.makeLink')}: ${account.name}`}
                    onPress={() => linkFor(account.name)}
                  >
                    {say('access.makeLink')}
                  </Button>
                  <Button kind="quiet" onPress={() => close(account)}>
                    {say('access.noMore', { name: account.name })}
                  </Button>
                </li>
              ))}
          </ul>
        )}
      </Shown>
      <Form label={say('access.whoMay')} onSend={let_} send={say('access.let')}>
        {(wrongs) => (
          <>
            <TextField
              label={say('access.name')}
              hint={say('access.nameHint')}
              value={name}
              onChange={setName}
              wrong={wrongs['name']}
            />
            <SelectField
              label={say('access.role')}
              value={role}
              onChange={setRole}
              options={optionsOf(PERSON_ROLES)}
            />
            {role === 'keeper' ? (
              <TextField label={say('access.beds')} value={beds} onChange={setBeds} wrong={wrongs['beds']} />
            ) : null}
          </>
        )}
      </Form>
      <Once text={say('access.linkOnce')} secret={link} />
    </section>
  );
}

function Once({ text, secret }: { text: string; secret: string | undefined }) {
  return (
    <div role="status">
      {secret === undefined ? null : (
        <Notice kind="plain">
          <p>{text}</p>
          <p class="secret">
            <code>{secret}</code>
          </p>
        </Notice>
      )}
    </div>
  );
}

function Sessions({ all }: { all: boolean }) {
  const path = all ? '/api/sessions' : '/api/me/sessions';
  const seen = useSeen<readonly Session[]>(path);
  const end = async (id: string): Promise<void> => {
    await ask(`${path}/${id}/revoke`, { method: 'POST', body: {} });
    seen.again();
  };
  return (
    <section class="card">
      <h2>{say('access.sessions')}</h2>
      <Shown of={seen}>
        {(sessions) => (
          <ul>
            {sessions.map(({ id, account, address, usedAt }) => (
              <li key={id}>
                {account}, {address}, <When at={usedAt} />{' '}
                <Button
                  kind="quiet"
                  label={`${say('access.revoke')}: ${account}, ${address}`}
                  onPress={() => end(id)}
                >
                  {say('access.revoke')}
                </Button>
              </li>
            ))}
          </ul>
        )}
      </Shown>
    </section>
  );
}

function Machines() {
  const seen = useSeen<readonly MachineToken[]>('/api/tokens');
  const [name, setName] = useState('');
  const [role, setRole] = useState('monitor');
  const [beds, setBeds] = useState('');
  const [secret, setSecret] = useState<string>();
  const make = async (): Promise<void> => {
    const body = { name: name.trim(), role, beds: bedsIn(beds) };
    setSecret((await ask<{ secret: string }>('/api/tokens', { method: 'POST', body })).secret);
    seen.again();
  };
  const end = async (id: string): Promise<void> => {
    await ask(`/api/tokens/${id}/revoke`, { method: 'POST', body: {} });
    seen.again();
  };
  return (
    <section class="card">
      <h2>{say('access.tokens')}</h2>
      <Shown of={seen}>
        {(tokens) => (
          <ul>
            {tokens
              .filter(({ revokedAt }) => revokedAt === null)
              .map((token) => (
                <li key={token.id}>
                  {token.name}: {say(ROLE_WORDS[token.role])}{' '}
                  <Button
                    kind="quiet"
                    label={`${say('access.revoke')}: ${token.name}`}
                    onPress={() => end(token.id)}
                  >
                    {say('access.revoke')}
                  </Button>
                </li>
              ))}
          </ul>
        )}
      </Shown>
      <Form label={say('access.tokens')} onSend={make} send={say('access.makeToken')}>
        {(wrongs) => (
          <>
            <TextField
              label={say('access.tokenName')}
              value={name}
              onChange={setName}
              wrong={wrongs['name']}
            />
            <SelectField
              label={say('access.role')}
              value={role}
              onChange={setRole}
              options={optionsOf(ROLES)}
            />
            {role === 'keeper' ? (
              <TextField label={say('access.beds')} value={beds} onChange={setBeds} wrong={wrongs['beds']} />
            ) : null}
          </>
        )}
      </Form>
      <Once text={say('access.tokenOnce')} secret={secret} />
    </section>
  );
}

function Password() {
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

function Trail() {
  const seen = useSeen<readonly AuditEntry[]>('/api/audit');
  return (
    <section class="card">
      <h2>{say('access.trail')}</h2>
      <Shown of={seen}>
        {(rows) => (
          <ul>
            {rows.map(({ seq, at, who, address, did, what, result }) => (
              <li key={seq}>
                <When at={at} />: {say('access.trailRow', { who, address, what: `${did} ${what}` })} (
                {result ?? say('access.noResult')})
              </li>
            ))}
          </ul>
        )}
      </Shown>
    </section>
  );
}
