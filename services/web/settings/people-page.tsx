/** People and groups of a site: how they are reached, and what is told to whom. */
import { useMay } from '../access/may.js';
import { useSeen } from '../api/seen.js';
import type { Person, SiteDescription } from '../api/types/site.js';
import { ButtonLink } from '../parts/button.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { WayTo } from '../parts/way-to.js';
import { say } from '../words/say.js';
import { Back } from './back.js';
import { OfSite, siteAddress } from './of-site.js';
import './settings.css';

export default function PeoplePage() {
  return (
    <>
      <Back />
      <Title>{say('settings.people')}</Title>
      <OfSite>{(site) => <People site={site.id} />}</OfSite>
    </>
  );
}

function People({ site }: { site: string }) {
  const seen = useSeen<SiteDescription>(siteAddress(site), { live: ['site'] });
  return (
    <>
      <div class="buttons">
        <ButtonLink href="/settings/people/new">{say('settings.personAdd')}</ButtonLink>
        <ButtonLink href="/settings/groups/new" kind="quiet">
          {say('settings.groupAdd')}
        </ButtonLink>
        <ButtonLink href="/settings/drill" kind="quiet">
          {say('settings.drill')}
        </ButtonLink>
      </div>
      <Shown of={seen}>
        {(whole) => (
          <>
            <ul class="settings-list">
              {whole.people.map((person) => (
                <PersonLine key={person.id} person={person} whole={whole} />
              ))}
            </ul>
            <h2>{say('settings.groups')}</h2>
            <Groups whole={whole} />
          </>
        )}
      </Shown>
    </>
  );
}

function PersonLine({ person, whole }: { person: Person; whole: SiteDescription }) {
  // To others the service says none.
  const seesWays = useMay('people');
  const { id, name, reach, quiet } = person;
  const keeps = whole.beds.filter((bed) => bed.keeper === id).map((bed) => bed.name);
  return (
    <li>
      <h2>
        <WayTo href={`/settings/people/${id}`}>{name}</WayTo>
      </h2>
      {seesWays ? (
        <p class={reach.length === 0 ? 'waits' : undefined}>
          {reach.length === 0
            ? say('settings.noWay')
            : reach
                .map(({ via, to }) => say('settings.reachedBy', { via: say(`settings.via_${via}`), to }))
                .join('; ')}
        </p>
      ) : null}
      {keeps.length === 0 ? null : <p class="soft">{say('settings.keeps', { beds: keeps.join(', ') })}</p>}
      {quiet ? <p class="soft">{say('settings.quietHours', quiet)}</p> : null}
    </li>
  );
}

function Groups({ whole: { groups, people } }: { whole: SiteDescription }) {
  if (groups.length === 0) return <p>{say('settings.noGroups')}</p>;
  const nameOf = (id: string): string => people.find((person) => person.id === id)?.name ?? id;
  return (
    <ul class="settings-list">
      {groups.map(({ id, name, lead, members }) => (
        <li key={id}>
          <h3>
            <WayTo href={`/settings/groups/${id}`}>{name}</WayTo>
          </h3>
          <p>{say('settings.groupLed', { lead: nameOf(lead), members: members.map(nameOf).join(', ') })}</p>
        </li>
      ))}
    </ul>
  );
}
