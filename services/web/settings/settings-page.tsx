/** Settings: what can be seen and changed of a site, and of this device. */
import { useMay, useMayOpen } from '../access/may.js';
import { OnlyWhoMay } from '../access/only-who-may.js';
import { useSeen } from '../api/seen.js';
import type { KnownProbe, UnknownProbe } from '../api/types/settings.js';
import type { SiteLine } from '../api/types/site.js';
import { Title } from '../parts/title.js';
import { say } from '../words/say.js';
import { FirstSite } from './first-site.js';
import { OfSite } from './of-site.js';
import './settings.css';

export default function SettingsPage() {
  const seesAll = useMay('audit');
  return (
    <>
      <Title>{say('app.waySettings')}</Title>
      <OfSite
        none={
          <OnlyWhoMay action="people">
            <FirstSite />
          </OnlyWhoMay>
        }
      >
        {(site) => <SiteShelf site={site} />}
      </OfSite>
      <h2>{say('settings.hereTitle')}</h2>
      <ul class="shelf">
        <Drawer href="/settings/device" title={say('settings.device')} text={say('settings.deviceAbout')} />
        <Drawer
          href="/settings/sign-ins"
          title={say('access.signIns')}
          text={say(seesAll ? 'access.signInsAbout' : 'access.signInsOwn')}
        />
        <Drawer href="/settings/access" title={say('settings.access')} text={say('settings.accessAbout')} />
      </ul>
    </>
  );
}

function SiteShelf({ site }: { site: SiteLine }) {
  const unknown = useSeen<readonly UnknownProbe[]>('/api/probes/unknown', { live: ['probes', 'readings'] });
  const known = useSeen<readonly KnownProbe[]>(`/api/probes?site=${site.id}`, { live: ['probes'] });
  const strangers = (unknown.answer ?? []).filter((probe) => probe.site === site.id).length;
  const due = (known.answer ?? []).filter(({ calibrations }) =>
    calibrations.some(({ isDue }) => isDue),
  ).length;
  return (
    <>
      <h2>{site.name}</h2>
      <ul class="shelf">
        <Drawer href="/settings/site" title={say('settings.site')} text={say('settings.siteAbout')} />
        <Drawer
          href="/settings/beds"
          title={say('settings.beds')}
          text={say('settings.bedsAbout', { count: site.beds })}
        />
        <Drawer
          href="/settings/probes"
          title={say('settings.probes')}
          text={say('settings.probesAbout', { count: site.probes })}
          waits={[
            ...(strangers > 0 ? [say('settings.unknownWait', { count: strangers })] : []),
            ...(due > 0 ? [say('settings.calibrationsDue', { count: due })] : []),
          ]}
        />
        <Drawer
          href="/settings/people"
          title={say('settings.people')}
          text={say('settings.peopleAbout', { count: site.people })}
        />
        <Drawer
          href="/settings/thresholds"
          title={say('settings.thresholds')}
          text={say('settings.thresholdsAbout')}
        />
        <Drawer
          href="/settings/changes"
          title={say('settings.changes')}
          text={say('settings.changesAbout')}
        />
      </ul>
    </>
  );
}

interface DrawerParts {
  readonly href: string;
  readonly title: string;
  readonly text: string;
  /** What somebody should see to there. */
  readonly waits?: readonly string[];
}

function Drawer({ href, title, text, waits = [] }: DrawerParts) {
  if (!useMayOpen()(href)) return null;
  return (
    <li>
      <a href={href}>{title}</a>
      <p>{text}</p>
      {waits.map((wait) => (
        <p key={wait} class="waits">
          {wait}
        </p>
      ))}
    </li>
  );
}
