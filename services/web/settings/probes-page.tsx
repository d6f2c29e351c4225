/** Probes: those that nobody knows first, then all of the site, where they stand and how they are. */
import type { ComponentChildren } from 'preact';
import { useMay } from '../access/may.js';
import { useSeen } from '../api/seen.js';
import type { DeviceSecret } from '../api/types/access.js';
import type { KnownProbe, UnknownProbe } from '../api/types/settings.js';
import type { SiteDescription } from '../api/types/site.js';
import { ButtonLink } from '../parts/button.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { Ago, When } from '../parts/when.js';
import { centimetres } from '../words/numbers.js';
import { say } from '../words/say.js';
import { dayAndTime, dayOf } from '../words/times.js';
import { Back } from './back.js';
import { OfSite, siteAddress } from './of-site.js';
import { Lamps } from './secrets/lamps.js';
import { type Secrets, useSecrets } from './secrets/use-secrets.js';
import './settings.css';

export default function ProbesPage() {
  return (
    <>
      <Back />
      <Title>{say('settings.probes')}</Title>
      <OfSite>{(site) => <OfOneSite site={site.id} />}</OfSite>
    </>
  );
}

function OfOneSite({ site }: { site: string }) {
  const secrets = useSecrets(site);
  return (
    <>
      <Unknown site={site} />
      <Known site={site} secrets={secrets} />
      {secrets.seenBy === 'here' ? <Lamps site={site} seen={secrets.seen} /> : null}
    </>
  );
}

function Unknown({ site }: { site: string }) {
  const mayAdopt = useMay('describe');
  const seen = useSeen<readonly UnknownProbe[]>('/api/probes/unknown', { live: ['probes', 'readings'] });
  return (
    <section aria-labelledby="unknown-probes">
      <h2 id="unknown-probes">{say('settings.unknownTitle')}</h2>
      <Shown of={seen}>
        {(all) => {
          const here = all.filter((one) => one.site === site);
          if (here.length === 0) return <p>{say('settings.unknownNone')}</p>;
          return (
            <>
              <p>{say('settings.unknownAbout')}</p>
              <ul class="settings-list">
                {here.map(({ probe, readings, firstAt, lastAt }) => (
                  <li key={probe}>
                    <h3>{probe}</h3>
                    <p>
                      {say('settings.unknownSince', { count: readings, since: dayAndTime(firstAt) })}{' '}
                      {say('settings.lastWord')} <Ago at={lastAt} />
                    </p>
                    {mayAdopt ? (
                      <ButtonLink href={`/settings/probes/${probe}`}>
                        {say('settings.adopt', { probe })}
                      </ButtonLink>
                    ) : null}
                  </li>
                ))}
              </ul>
            </>
          );
        }}
      </Shown>
    </section>
  );
}

function Known({ site, secrets }: { site: string; secrets: Secrets }) {
  const seen = useSeen<readonly KnownProbe[]>(`/api/probes?site=${site}&limit=2000`, {
    live: ['probes', 'site'],
  });
  const whole = useSeen<SiteDescription>(siteAddress(site), { live: ['site'] });
  const bedName = (id: string): string => whole.answer?.beds.find((bed) => bed.id === id)?.name ?? id;
  const all = secrets.seen.answer;
  const ofProbes = (all ?? []).filter(({ kind }) => kind === 'probe');
  const isKnown = (id: string): boolean => (seen.answer ?? []).some((probe) => probe.id === id);
  const strays = seen.answer ? ofProbes.filter(({ id }) => !isKnown(id)) : [];
  return (
    <section aria-labelledby="known-probes">
      <h2 id="known-probes">{say('settings.knownTitle')}</h2>
      <Shown of={seen}>
        {(probes) =>
          probes.length === 0 ? (
            <p>{say('settings.knownNone')}</p>
          ) : (
            <ul class="settings-list">
              {probes.map((probe) => (
                <ProbeLine key={probe.id} probe={probe} bedName={bedName}>
                  {all ? <SecretLine secret={ofProbes.find(({ id }) => id === probe.id)} /> : null}
                </ProbeLine>
              ))}
            </ul>
          )
        }
      </Shown>
      <Strays strays={strays} />
    </section>
  );
}

/** Secrets of probes that no description has: made ahead, or left behind. */
function Strays({ strays }: { strays: readonly DeviceSecret[] }) {
  if (strays.length === 0) return null;
  return (
    <>
      <h3>{say('access.strays')}</h3>
      <ul class="settings-list">
        {strays.map((secret) => (
          <li key={secret.id}>
            <h4>
              <a href={`/settings/probes/${secret.id}`}>{secret.id}</a>
            </h4>
            <SecretLine secret={secret} />
          </li>
        ))}
      </ul>
    </>
  );
}

function SecretLine({ secret }: { secret: DeviceSecret | undefined }) {
  if (!secret) return <p class="soft">{say('access.secretNone')}</p>;
  return (
    <p class="soft">
      {say('access.secretSince')} <When at={secret.madeAt} />
    </p>
  );
}

interface LineParts {
  readonly probe: KnownProbe;
  readonly bedName: (id: string) => string;
  readonly children: ComponentChildren;
}

function ProbeLine({ probe, bedName, children }: LineParts) {
  return (
    <li>
      <h3>
        <a href={`/settings/probes/${probe.id}`}>{probe.id}</a>
      </h3>
      <p>{placeWords(probe, bedName)}</p>
      <Health probe={probe} />
      {children}
    </li>
  );
}

/** Where a probe stands and since when, in a sentence. */
export function placeWords({ stands, since }: KnownProbe, bedName: (id: string) => string): string {
  const day = since === null ? '' : dayAndTime(since);
  if (stands === null) return since === null ? say('settings.onShelf') : say('settings.takenOut', { day });
  if (stands.bed === undefined) return say('settings.inShade', { day });
  const { x = 0, y = 0, depth = 0 } = stands;
  return say('settings.inBed', {
    ...{ bed: bedName(stands.bed), day },
    ...{ x: centimetres(x), y: centimetres(y), depth: centimetres(depth) },
  });
}

/** Connection, last word, battery and calibrations of a probe. */
export function Health({ probe }: { probe: KnownProbe }) {
  const { online, lastHeardAt, battery_V, charge_EL, onBenchSince, calibrations } = probe;
  const due = calibrations.filter(({ isDue }) => isDue);
  const next = calibrations.flatMap(({ dueAt }) => dueAt ?? []).sort()[0];
  return (
    <>
      <p class="soft">
        {online === null ? null : `${say(online ? 'settings.online' : 'settings.offline')} `}
        {lastHeardAt === null ? (
          say('settings.neverHeard')
        ) : (
          <>
            {say('settings.lastWord')} <Ago at={lastHeardAt} />
          </>
        )}
      </p>
      {battery_V === null && charge_EL === null ? null : (
        <p class="soft">
          {charge_EL === null
            ? say('settings.batteryVolts', { value: battery_V ?? 0 })
            : say('settings.batteryLeft', { value: charge_EL })}
        </p>
      )}
      {onBenchSince === null ? null : <p>{say('settings.onBench', { day: dayAndTime(onBenchSince) })}</p>}
      {due.map(({ quantity, dueAt }) => (
        <p key={quantity} class="waits">
          {say(`settings.due_${quantity}`, { day: dueAt === null ? '' : dayOf(dueAt) })}
        </p>
      ))}
      {due.length === 0 ? (
        <p class="soft">
          {next === undefined
            ? say('settings.neverCalibrated')
            : say('settings.nextDue', { day: dayOf(next) })}
        </p>
      ) : null}
    </>
  );
}
