/** One probe: where it has stood, and where it is taken to. One that nobody knows is adopted by its first place. */

import { useRoute } from 'preact-iso';
import { OnlyWhoMay } from '../access/only-who-may.js';
import { Refusal } from '../api/client.js';
import { useSeen } from '../api/seen.js';
import type { KnownProbe, UnknownProbe } from '../api/types/settings.js';
import type { DescribedProbe, Placement, SiteDescription } from '../api/types/site.js';
import { NotThere } from '../parts/not-there.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { centimetres } from '../words/numbers.js';
import { say } from '../words/say.js';
import { dayAndTime } from '../words/times.js';
import { Back } from './back.js';
import { useEntry } from './entry.js';
import { MoveForm } from './move-form.js';
import { OfSite, siteAddress } from './of-site.js';
import { Health } from './probes-page.js';
import { ProbeSecret } from './secrets/probe-secret.js';
import './settings.css';

export default function ProbePage() {
  const { params } = useRoute();
  const id = params['probe'] ?? '';
  return (
    <>
      <Back to="/settings/probes" text={say('settings.toProbes')} />
      <Title>{say('settings.probeNamed', { probe: id })}</Title>
      <OfSite>{(site) => <OneProbe key={id} site={site.id} id={id} />}</OfSite>
    </>
  );
}

function OneProbe({ site, id }: { site: string; id: string }) {
  const read = useEntry<DescribedProbe>(`${siteAddress(site)}/probes/${encodeURIComponent(id)}`);
  const whole = useSeen<SiteDescription>(siteAddress(site), { live: ['site'] });
  const isUnknown = read.refusal instanceof Refusal && read.refusal.status === 404;
  if (isUnknown)
    return <Shown of={whole}>{(description) => <Adopting site={site} id={id} whole={description} />}</Shown>;
  return (
    <Shown of={whole}>
      {(description) => (
        <Shown of={read}>
          {({ content, tag }) => (
            <>
              <Standing site={site} id={id} />
              <History probe={content} whole={description} />
              <OnlyWhoMay action="describe">
                <MoveForm
                  key={tag}
                  {...{ site, id, tag, whole: description }}
                  last={content.placements.at(-1)}
                  onReadAgain={read.again}
                />
              </OnlyWhoMay>
              <ProbeSecret site={site} id={id} />
            </>
          )}
        </Shown>
      )}
    </Shown>
  );
}

function Adopting({ site, id, whole }: { site: string; id: string; whole: SiteDescription }) {
  const seen = useSeen<readonly UnknownProbe[]>('/api/probes/unknown');
  const unknown = seen.answer?.find((one) => one.site === site && one.probe === id);
  return (
    <>
      {unknown || seen.asking ? null : <NotThere kind="probe" id={id} />}
      <p>{say(unknown ? 'settings.adoptAbout' : 'settings.addAbout')}</p>
      {unknown ? (
        <p>{say('settings.unknownSince', { count: unknown.readings, since: dayAndTime(unknown.firstAt) })}</p>
      ) : null}
      {seen.asking && !seen.answer ? null : (
        <OnlyWhoMay action="describe">
          <MoveForm
            {...{ site, id, whole }}
            tag={undefined}
            last={undefined}
            firstAt={unknown?.firstAt}
            onReadAgain={() => location.reload()}
          />
        </OnlyWhoMay>
      )}
      <ProbeSecret site={site} id={id} />
    </>
  );
}

function Standing({ site, id }: { site: string; id: string }) {
  const seen = useSeen<readonly KnownProbe[]>(`/api/probes?site=${site}&limit=2000`, { live: ['probes'] });
  const probe = seen.answer?.find((one) => one.id === id);
  return probe ? <Health probe={probe} /> : null;
}

function History({ probe: { placements }, whole }: { probe: DescribedProbe; whole: SiteDescription }) {
  if (placements.length === 0) return <p>{say('settings.onShelf')}</p>;
  return (
    <>
      <h2>{say('settings.stoodTitle')}</h2>
      <ol class="settings-list" reversed>
        {placements.toReversed().map((placement) => (
          <li key={placement.from}>
            <p>{wordsFor(placement, whole)}</p>
          </li>
        ))}
      </ol>
    </>
  );
}

function wordsFor({ bed, x = 0, y = 0, depth = 0, from, to }: Placement, { beds }: SiteDescription): string {
  const span = {
    from: dayAndTime(from),
    to: to === undefined ? '' : dayAndTime(to),
    ended: to === undefined ? 'no' : 'yes',
  };
  if (bed === undefined) return say('settings.stoodInShade', span);
  const name = beds.find(({ id }) => id === bed)?.name ?? bed;
  const point = { x: centimetres(x), y: centimetres(y), depth: centimetres(depth) };
  return say('settings.stoodInBed', { ...span, ...point, bed: name });
}
