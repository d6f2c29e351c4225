/** The beds of a site, to be described otherwise, and to be added. */

import { useSeen } from '../api/seen.js';
import type { DescribedBed, SiteDescription } from '../api/types/site.js';
import { ButtonLink } from '../parts/button.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { WayTo } from '../parts/way-to.js';
import { say } from '../words/say.js';
import { dayOf } from '../words/times.js';
import { Back } from './back.js';
import { whoCanBeTold } from './escalation.js';
import { OfSite, siteAddress } from './of-site.js';
import './settings.css';

export default function BedsPage() {
  return (
    <>
      <Back />
      <Title>{say('settings.beds')}</Title>
      <OfSite>{(site) => <Beds site={site.id} />}</OfSite>
    </>
  );
}

function Beds({ site }: { site: string }) {
  const seen = useSeen<SiteDescription>(siteAddress(site), { live: ['site'] });
  return (
    <>
      <div class="buttons">
        <ButtonLink href="/settings/beds/new">{say('settings.bedAdd')}</ButtonLink>
      </div>
      <Shown of={seen}>
        {(whole) => (
          <ul class="settings-list">
            {whole.beds.map((bed) => (
              <BedLine key={bed.id} bed={bed} whole={whole} />
            ))}
          </ul>
        )}
      </Shown>
    </>
  );
}

function BedLine({ bed, whole }: { bed: DescribedBed; whole: SiteDescription }) {
  const keeper = whoCanBeTold(whole).find(({ value }) => value === bed.keeper)?.label;
  return (
    <li>
      <h2>
        <WayTo href={`/settings/beds/${bed.id}`}>{bed.name}</WayTo>
      </h2>
      <p>{keeper === undefined ? say('settings.noKeeper') : say('settings.keptBy', { name: keeper })}</p>
      <p class="soft">
        {bed.filled === undefined
          ? say('settings.notFilled')
          : say('settings.filledOn', { day: dayOf(bed.filled) })}
      </p>
      <p class="row-links">
        <a href={`/settings/thresholds?bed=${bed.id}`}>{say('settings.thresholdsOf', { name: bed.name })}</a>
        <a href={`/beds/${bed.id}`}>{say('settings.lookAt', { name: bed.name })}</a>
      </p>
    </li>
  );
}
