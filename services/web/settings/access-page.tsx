/** Who may do what: what the service enforces, and what it takes on trust. */

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
  const seen = useSeen<Access>('/api/access');
  return (
    <>
      <Back />
      <Title>{say('settings.access')}</Title>
      <Shown of={seen}>{(access) => <Parties access={access} />}</Shown>
    </>
  );
}

function Parties({ access: { notes, parties } }: { access: Access }) {
  return (
    <>
      <Notice kind="caution">
        <ul>
          {notes.map((note) => (
            <li key={note}>
              <Told>{note}</Told>
            </li>
          ))}
        </ul>
      </Notice>
      {parties
        .filter(({ isOpen }) => isOpen)
        .map((party) => (
          <Party key={party.id} party={party} />
        ))}
      <p class="soft">{say('settings.accessRest')}</p>
    </>
  );
}

function Party({ party: { who, proof, may, mayNot } }: { party: Access['parties'][number] }) {
  return (
    <section class="card">
      <h2>
        <Told>{who}</Told>
      </h2>
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
      <h3>{title}</h3>
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
