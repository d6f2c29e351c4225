/** The site itself: its name, its time zone, and whom alarms are passed on to while nobody answers. */
import { useState } from 'preact/hooks';
import { useSeen } from '../api/seen.js';
import type { Particulars, SiteDescription } from '../api/types/site.js';
import { SelectField, TextField, Tick } from '../parts/field.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { say } from '../words/say.js';
import { Back } from './back.js';
import { type Entry, putEntry, useEntry, withoutGaps } from './entry.js';
import { EntryForm } from './entry-form.js';
import { EscalationFields, typedSteps, whoCanBeTold } from './escalation.js';
import { OfSite, siteAddress } from './of-site.js';
import { zoneOptions } from './zones.js';
import './settings.css';

export default function SitePage() {
  return (
    <>
      <Back />
      <Title>{say('settings.site')}</Title>
      <OfSite>{(site) => <Particular site={site.id} />}</OfSite>
    </>
  );
}

function Particular({ site }: { site: string }) {
  const path = `${siteAddress(site)}/particulars`;
  const read = useEntry<Particulars>(path);
  const description = useSeen<SiteDescription>(siteAddress(site));
  return (
    <Shown of={description}>
      {(whole) => (
        <Shown of={read}>
          {(entry) => (
            <SiteForm key={entry.tag} path={path} entry={entry} whole={whole} onAgain={read.again} />
          )}
        </Shown>
      )}
    </Shown>
  );
}

interface SiteFormParts {
  readonly path: string;
  readonly entry: Entry<Particulars>;
  readonly whole: SiteDescription;
  readonly onAgain: () => void;
}

function SiteForm({ path, entry, whole, onAgain }: SiteFormParts) {
  const [tag, setTag] = useState(entry.tag);
  const { content } = entry;
  const [name, setName] = useState(content.name);
  const [timezone, setTimezone] = useState(content.timezone);
  const [steps, setSteps] = useState(typedSteps(content.escalation));
  const [drill, setDrill] = useState(content.telling?.['drill'] === 'monthly');
  const made = (): Particulars => {
    const { drill: _, ...others } = content.telling ?? {};
    const telling = { ...others, ...(drill ? { drill: 'monthly' } : {}) };
    return withoutGaps({
      ...{ ...content, name, timezone },
      escalation: steps.length > 0 ? steps.map((step) => step.made()) : undefined,
      telling: Object.keys(telling).length > 0 ? telling : undefined,
    });
  };
  return (
    <EntryForm<Particulars>
      label={say('settings.site')}
      send={say('settings.save')}
      onSend={(by) => putEntry(path, tag, { by, site: made() })}
      onSaved={({ version }) => setTag(`"${version}"`)}
      onReadAgain={onAgain}
    >
      {(wrongs) => (
        <>
          <TextField
            label={say('settings.siteName')}
            value={name}
            onChange={setName}
            wrong={wrongs['site/name']}
            required
          />
          <SelectField
            label={say('settings.zone')}
            hint={say('settings.zoneHint')}
            value={timezone}
            onChange={setTimezone}
            wrong={wrongs['site/timezone']}
            options={zoneOptions(timezone)}
          />
          <EscalationFields
            hint={say('settings.escalationSiteHint')}
            steps={steps}
            onChange={setSteps}
            options={whoCanBeTold(whole)}
            wrongs={wrongs}
            place="site/escalation"
          />
          <Tick label={say('settings.monthlyDrill')} checked={drill} onChange={setDrill} />
          <p>
            <a class="back" href="/settings/thresholds#telling">
              {say('settings.tellingElsewhere')}
            </a>
          </p>
        </>
      )}
    </EntryForm>
  );
}
