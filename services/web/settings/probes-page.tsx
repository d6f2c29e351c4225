/** Probes: those that nobody knows first, then all of the site, where they stand and how they are. */
import { useSeen } from '../api/seen.js';
import type { KnownProbe, UnknownProbe } from '../api/types/settings.js';
import type { SiteDescription } from '../api/types/site.js';
import { ButtonLink } from '../parts/button.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { Ago } from '../parts/when.js';
import { centimetres } from '../words/numbers.js';
import { say } from '../words/say.js';
import { dayAndTime, dayOf } from '../words/times.js';
import { Back } from './back.js';
import { OfSite, siteAddress } from './of-site.js';
import './settings.css';

export default function ProbesPage() {
  return (
    <>
      <Back />
      <Title>{say('settings.probes')}</Title>
      <OfSite>
        {(site) => (
          <>
            <Unknown site={site.id} />
            <Known site={site.id} />
          </>
        )}
      </OfSite>
    </>
  );
}

function Unknown({ site }: { site: string }) {
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
                    <ButtonLink href={`/settings/probes/${probe}`}>
                      {say('settings.adopt', { probe })}
                    </ButtonLink>
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

function Known({ site }: { site: string }) {
  const seen = useSeen<readonly KnownProbe[]>(`/api/probes?site=${site}&limit=2000`, {
    live: ['probes', 'site'],
  });
  const whole = useSeen<SiteDescription>(siteAddress(site), { live: ['site'] });
  const bedName = (id: string): string => whole.answer?.beds.find((bed) => bed.id === id)?.name ?? id;
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
                <ProbeLine key={probe.id} probe={probe} bedName={bedName} />
              ))}
            </ul>
          )
        }
      </Shown>
    </section>
  );
}

function ProbeLine({ probe, bedName }: { probe: KnownProbe; bedName: (id: string) => string }) {
  return (
    <li>
      <h3>
        <a href={`/settings/probes/${probe.id}`}>{probe.id}</a>
      </h3>
      <p>{placeWords(probe, bedName)}</p>
      <Health probe={probe} />
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
