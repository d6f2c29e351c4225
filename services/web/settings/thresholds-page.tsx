/** Thresholds of a site, or of one bed: what each does, what is in force, and where that was set. */
import { useLocation } from 'preact-iso';
import { useSeen } from '../api/seen.js';
import type { Threshold } from '../api/types/settings.js';
import type { DescribedBed, Particulars, SiteDescription } from '../api/types/site.js';
import { SelectField } from '../parts/field.js';
import { Fold } from '../parts/fold.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { say } from '../words/say.js';
import { Back } from './back.js';
import { OfSite, siteAddress } from './of-site.js';
import { ThresholdLine } from './threshold-line.js';
import './settings.css';

export default function ThresholdsPage() {
  return (
    <>
      <Back />
      <Title>{say('settings.thresholds')}</Title>
      <p>{say('settings.thresholdsNote')}</p>
      <OfSite>{(site) => <OfWhom site={site.id} />}</OfSite>
    </>
  );
}

/** The site as a whole, or one of its beds. */
function OfWhom({ site }: { site: string }) {
  const { query, route } = useLocation();
  const bed = new URLSearchParams(query).get('bed') ?? '';
  const whole = useSeen<SiteDescription>(siteAddress(site), { live: ['site'] });
  return (
    <Shown of={whole}>
      {({ beds }) => (
        <>
          <SelectField
            label={say('settings.thresholdsFor')}
            value={bed}
            onChange={(id) => route(`/settings/thresholds${id === '' ? '' : `?bed=${id}`}`, true)}
            options={[
              { value: '', label: say('settings.wholeSite') },
              ...beds.map(({ id, name }) => ({ value: id, label: name })),
            ]}
          />
          <List key={bed} site={site} bed={bed} />
        </>
      )}
    </Shown>
  );
}

const GROUPS = ['warmth', 'damp', 'looks', 'telling', 'calibration', 'readiness', 'sand'] as const;

function List({ site, bed }: { site: string; bed: string }) {
  const address = siteAddress(site);
  const seen = useSeen<readonly Threshold[]>(
    bed === '' ? `${address}/thresholds` : `/api/beds/${encodeURIComponent(bed)}/thresholds`,
    { live: ['site'] },
  );
  const entry: EntryOf =
    bed === ''
      ? { kind: 'site', path: `${address}/particulars` }
      : { kind: 'bed', path: `${address}/beds/${encodeURIComponent(bed)}` };
  return (
    <Shown of={seen}>
      {(all) => (
        <>
          {GROUPS.map((group) => {
            const some = all.filter((one) => one.group === group);
            if (some.length === 0) return null;
            const own = some.filter(({ setAt }) => setAt !== 'default').length;
            const title = say(`settings.group_${group}`);
            return (
              <Fold
                key={group}
                title={own === 0 ? title : say('settings.groupWithOwn', { title, count: own })}
                open={location.hash === `#${group}`}
              >
                {some.map((one) => (
                  <ThresholdLine key={one.name} threshold={one} entry={entry} onSaved={seen.again} />
                ))}
              </Fold>
            );
          })}
        </>
      )}
    </Shown>
  );
}

/** The entry in which a threshold is set. */
export interface EntryOf {
  readonly kind: 'site' | 'bed';
  readonly path: string;
}

export type Settable = Particulars | DescribedBed;
