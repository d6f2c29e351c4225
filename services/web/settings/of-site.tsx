/** The site whose settings are looked at: the only one, or the one that was chosen on this device. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { useSeen } from '../api/seen.js';
import type { SiteLine } from '../api/types/site.js';
import { SelectField } from '../parts/field.js';
import { Shown } from '../parts/shown.js';
import { say } from '../words/say.js';
import { useZone } from '../words/times.js';

const KEPT = 'sandlarder.site';

interface OfSiteParts {
  readonly children: (site: SiteLine) => ComponentChildren;
  /** Shown where no site is described yet. */
  readonly none?: ComponentChildren;
}

export function OfSite({ children, none }: OfSiteParts) {
  const [chosen, choose] = useState(localStorage.getItem(KEPT) ?? '');
  const seen = useSeen<readonly SiteLine[]>('/api/sites', { live: ['site'] });
  return (
    <Shown of={seen}>
      {(sites) => {
        const site = sites.find(({ id }) => id === chosen) ?? sites[0];
        if (!site) return none ?? <NoSite />;
        useZone(site.timezone);
        return (
          <>
            {sites.length > 1 ? (
              <SelectField
                label={say('settings.whichSite')}
                value={site.id}
                onChange={(id) => {
                  localStorage.setItem(KEPT, id);
                  choose(id);
                }}
                options={sites.map(({ id, name }) => ({ value: id, label: name }))}
              />
            ) : null}
            <div key={site.id}>{children(site)}</div>
          </>
        );
      }}
    </Shown>
  );
}

function NoSite() {
  return (
    <p>
      {say('settings.noSite')} <a href="/settings">{say('settings.describeFirst')}</a>
    </p>
  );
}

/** Where the settings of a site are in the API. */
export const siteAddress = (site: string): string => `/api/sites/${encodeURIComponent(site)}`;
