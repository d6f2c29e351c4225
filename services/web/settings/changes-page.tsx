/** Who changed what of a site, newest first. */
import { useSeen } from '../api/seen.js';
import type { SiteChange } from '../api/types/site.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { When } from '../parts/when.js';
import { say } from '../words/say.js';
import { Back } from './back.js';
import { OfSite, siteAddress } from './of-site.js';
import './settings.css';

export default function ChangesPage() {
  return (
    <>
      <Back />
      <Title>{say('settings.changes')}</Title>
      <OfSite>{(site) => <Changes site={site.id} />}</OfSite>
    </>
  );
}

function Changes({ site }: { site: string }) {
  const seen = useSeen<readonly SiteChange[]>(`${siteAddress(site)}/changes?limit=100`, { live: ['site'] });
  return (
    <Shown of={seen}>
      {(changes) => (
        <>
          <p>{say('settings.changesNote')}</p>
          <ul class="settings-list">
            {changes.map((change) => (
              <li key={`${change.version} ${change.kind} ${change.id}`}>
                <p>{wordsFor(change)}</p>
                <p class="soft">
                  <When at={change.at} />
                </p>
              </li>
            ))}
          </ul>
          <p>
            <a
              class="back"
              href={siteAddress(site)}
              download={`${site}.json`}
              target="_blank"
              rel="noreferrer"
            >
              {say('settings.saveFile')}
            </a>
          </p>
        </>
      )}
    </Shown>
  );
}

function wordsFor({ kind, id, by, isNew }: SiteChange): string {
  const what = say(`settings.kind_${kind}`, { id });
  if (by === null) return say(isNew ? 'settings.fileAdded' : 'settings.fileChanged', { what });
  return say(isNew ? 'settings.somebodyAdded' : 'settings.somebodyChanged', { what, by });
}
