/** One person: name, language, ways, quiet hours, and which alarms they are told of. */
import { useLocation, useRoute } from 'preact-iso';
import { useSeen } from '../api/seen.js';
import type { Person, SiteDescription } from '../api/types/site.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { language } from '../words/language.js';
import { say } from '../words/say.js';
import { Back } from './back.js';
import { useEntry } from './entry.js';
import { OfSite, siteAddress } from './of-site.js';
import { PersonForm } from './person-form.js';
import './settings.css';

export default function PersonPage() {
  const { params } = useRoute();
  const id = params['person'];
  return (
    <>
      <Back to="/settings/people" text={say('settings.toPeople')} />
      <OfSite>
        {(site) =>
          id === undefined ? <NewPerson site={site.id} /> : <KnownPerson key={id} site={site.id} id={id} />
        }
      </OfSite>
    </>
  );
}

function NewPerson({ site }: { site: string }) {
  const { route } = useLocation();
  const whole = useSeen<SiteDescription>(siteAddress(site));
  const begin: Person = { id: '', name: '', language: language(), reach: [{ via: 'sms', to: '' }] };
  return (
    <>
      <Title>{say('settings.personAdd')}</Title>
      <Shown of={whole}>
        {(description) => (
          <PersonForm
            {...{ site, whole: description }}
            entry={{ content: begin, tag: undefined }}
            onSaved={({ id }) => route(`/settings/people/${id}`)}
            onAgain={() => undefined}
          />
        )}
      </Shown>
    </>
  );
}

function KnownPerson({ site, id }: { site: string; id: string }) {
  const read = useEntry<Person>(`${siteAddress(site)}/people/${encodeURIComponent(id)}`);
  const whole = useSeen<SiteDescription>(siteAddress(site));
  return (
    <>
      <Title>{read.answer?.content.name ?? id}</Title>
      <Shown of={whole}>
        {(description) => (
          <Shown of={read}>
            {(entry) => (
              <PersonForm key={entry.tag} {...{ site, entry, whole: description }} onAgain={read.again} />
            )}
          </Shown>
        )}
      </Shown>
      <p>
        <a class="back" href="/settings/drill">
          {say('settings.drillTry')}
        </a>
      </p>
    </>
  );
}
