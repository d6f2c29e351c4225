/** Who may do what: roles, what the service enforces besides, and what it takes on trust. */
import { useMe } from '../access/me.js';
import { roleName } from '../access/role-words.js';
import { useSeen } from '../api/seen.js';
import type { Access } from '../api/types/settings.js';
import { Notice } from '../parts/notice.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { Told } from '../parts/told.js';
import { say } from '../words/say.js';
import { Back } from './back.js';
import './settings.css';

export default function AccessPage() {
  const seen = useSeen<Access>('/api/access', { live: ['access'] });
  return (
    <>
      <Back />
      <Title>{say('settings.access')}</Title>
      <Shown of={seen}>
        {(access) => (
          <>
            <Notes notes={access.notes} />
            <Roles roles={access.roles} />
            <Parties parties={access.parties} />
          </>
        )}
      </Shown>
    </>
  );
}

function Notes({ notes }: Pick<Access, 'notes'>) {
  return (
    <Notice kind="caution">
      <ul>
        {notes.map((note) => (
          <li key={note}>
            <Told>{note}</Told>
          </li>
        ))}
      </ul>
    </Notice>
  );
}

function Roles({ roles }: Pick<Access, 'roles'>) {
  const me = useMe();
  const own = me?.access === 'sign-in' ? me.role : null;
  return (
    <section aria-labelledby="roles">
      <h2 id="roles">{say('roles.title')}</h2>
      <p>{say('roles.about')}</p>
      <ul class="shelf">
        {roles.map(({ role, may, atNamedBeds }) => (
          <li key={role}>
            <h3>{roleName(role)}</h3>
            {role === own ? (
              <p>
                <b>{say('roles.yours')}</b>
              </p>
            ) : null}
            <ul>
              {may.map((action) => (
                <li key={action}>
                  {say(`roles.${action}`)}
                  {atNamedBeds.includes(action) ? ` (${say('roles.atNamedBeds')})` : ''}
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Parties({ parties }: Pick<Access, 'parties'>) {
  return (
    <>
      <h2>{say('roles.others')}</h2>
      {parties
        .filter(({ isOpen }) => isOpen)
        .map((party) => (
          <Party key={`${party.id} ${party.who}`} party={party} />
        ))}
      <p class="soft">{say('settings.accessRest')}</p>
    </>
  );
}

function Party({ party: { who, proof, may, mayNot } }: { party: Access['parties'][number] }) {
  return (
    <section class="card">
      <h3>
        <Told>{who}</Told>
      </h3>
      <p>
        <b>{say('settings.proof')}</b> <Told>{proof}</Told>
      </p>
      <Deeds title={say('settings.may')} deeds={may} />
      <Deeds title={say('settings.mayNot')} deeds={mayNot} />
    </section>
  );
}

function Deeds({ title, deeds }: { title: string; deeds: readonly string[] }) {
  if (deeds.length === 0) return null;
  return (
    <>
      <h4>{title}</h4>
      <ul>
        {deeds.map((deed) => (
          <li key={deed}>
            <Told>{deed}</Told>
          </li>
        ))}
      </ul>
    </>
  );
}
