/** One bed as it is described: its name, shape, keeper, and whom its alarms are passed on to. */
import { useState } from 'preact/hooks';
import { useLocation, useRoute } from 'preact-iso';
import { useSeen } from '../api/seen.js';
import type { DescribedBed, SiteDescription } from '../api/types/site.js';
import { Shown } from '../parts/shown.js';
import { shapeOfQuery } from '../parts/steps-in-url.js';
import { Title } from '../parts/title.js';
import { say } from '../words/say.js';
import { Back } from './back.js';
import { BedForm } from './bed-form.js';
import { useEntry } from './entry.js';
import { OfSite, siteAddress } from './of-site.js';
import './settings.css';

export default function BedPage() {
  const { params } = useRoute();
  const id = params['bed'];
  return (
    <>
      <Back to="/settings/beds" text={say('settings.toBeds')} />
      <OfSite>
        {(site) =>
          id === undefined ? <NewBed site={site.id} /> : <KnownBed key={id} site={site.id} id={id} />
        }
      </OfSite>
    </>
  );
}

const BEGIN: DescribedBed = { id: '', name: '', kind: 'stepped-pit', steps: [] };

/** Begins with the shape that a plan hands over in the address. */
function NewBed({ site }: { site: string }) {
  const { route, query } = useLocation();
  const [begin] = useState(() => ({ ...BEGIN, ...shapeOfQuery(new URLSearchParams(query)) }));
  const whole = useSeen<SiteDescription>(siteAddress(site));
  return (
    <>
      <Title>{say('settings.bedAdd')}</Title>
      <Shown of={whole}>
        {(description) => (
          <BedForm
            site={site}
            whole={description}
            entry={{ content: begin, tag: undefined }}
            onSaved={({ id }) => route(`/settings/beds/${id}`)}
            onAgain={() => undefined}
          />
        )}
      </Shown>
    </>
  );
}

function KnownBed({ site, id }: { site: string; id: string }) {
  const read = useEntry<DescribedBed>(`${siteAddress(site)}/beds/${encodeURIComponent(id)}`);
  const whole = useSeen<SiteDescription>(siteAddress(site));
  return (
    <>
      <Title>{read.answer?.content.name ?? id}</Title>
      <p class="row-links">
        <a class="back" href={`/settings/thresholds?bed=${id}`}>
          {say('settings.bedThresholds')}
        </a>
      </p>
      <Shown of={whole}>
        {(description) => (
          <Shown of={read} thing={{ kind: 'bed', id }}>
            {(entry) => (
              <BedForm key={entry.tag} site={site} whole={description} entry={entry} onAgain={read.again} />
            )}
          </Shown>
        )}
      </Shown>
    </>
  );
}
