/** What is known of a bed and of each of its probes. */

import { useSeen } from '../api/seen.js';
import type { Bed, Probe } from '../api/types/bed.js';
import type { BuriedDepth } from '../api/types/filling.js';
import type { Readings } from '../api/types/readings.js';
import { depthWord } from '../parts/depth-word.js';
import { Fold } from '../parts/fold.js';
import { English } from '../parts/notice.js';
import { Told } from '../parts/told.js';
import { When } from '../parts/when.js';
import { celsius, celsiusMore, humidity, kilograms, number } from '../words/numbers.js';
import { say, wordFor } from '../words/say.js';
import { Fact } from './section/probe-open.js';
import { placeOf } from './section/probe-words.js';
import { isOfThisFilling } from './this-filling.js';

/** When a bed is to be looked into by hand. */
interface Look {
  readonly bed: string;
  readonly due: boolean;
  readonly dueAt: string | null;
  readonly reasons: readonly { readonly text: string }[];
}

export function Facts({ bed }: { bed: Bed }) {
  const looks = useSeen<readonly Look[]>('/api/looks', { live: ['beds', 'alarms'], bed: bed.id });
  const look = looks.answer?.find((one) => one.bed === bed.id);
  return (
    <section class="card" aria-labelledby="facts">
      <h2 id="facts">{say('bed.facts')}</h2>
      <dl class="facts">
        <Fact name={say('bed.shape')}>{shapeOf(bed)}</Fact>
        <Fact name={say('bed.filled')}>
          {bed.filled === null ? say('bed.neverFilled') : <When at={bed.filled} />}
        </Fact>
        <Fact name={say('bed.roots')}>{rootsOf(bed)}</Fact>
        <Fact name={say('bed.latestLook')}>
          <LatestLook bed={bed} />
        </Fact>
        {look ? (
          <Fact name={say('bed.nextLook')}>
            <NextLook look={look} />
          </Fact>
        ) : null}
        <Fact name={say('bed.judgedTo')}>
          {bed.judgedTo === null ? say('bed.notJudged') : <When at={bed.judgedTo} />}
        </Fact>
        {bed.basis === '' ? null : (
          <Fact name={say('bed.basis')}>
            <English>{bed.basis}</English>
          </Fact>
        )}
      </dl>
      <Probes bed={bed} />
    </section>
  );
}

const shapeOf = ({ kind, steps }: Bed): string =>
  say(kind === 'box' ? 'bed.boxOf' : 'bed.pitOf', {
    steps: steps
      .map(({ length, width, height }) =>
        say('bed.step', { length: number(length), width: number(width), height: number(height) }),
      )
      .join('; '),
  });

function rootsOf({ roots }: Bed): string {
  const { count, mass_kg } = roots ?? {};
  if (count === undefined) return mass_kg === undefined ? say('parts.unknown') : kilograms(mass_kg);
  if (mass_kg === undefined) return say('bed.rootCount', { count });
  return say('bed.rootCountMass', { count, mass: kilograms(mass_kg) });
}

function LatestLook({ bed: { latestInspection } }: { bed: Bed }) {
  if (!latestInspection) return <>{say('bed.noLook')}</>;
  const { at, by, opened, found, note } = latestInspection;
  const words = found.map((one) => wordFor('bed', `found-${one}`) ?? one).join(', ');
  return (
    <>
      <When at={at} />
      <br />
      {say(opened ? 'bed.lookOpened' : 'bed.lookClosed', { by, found: words })}
      {note ? <span class="soft"> {note}</span> : null}
    </>
  );
}

function NextLook({ look: { due, dueAt, reasons } }: { look: Look }) {
  if (dueAt === null) return <>{say('bed.noLookDue')}</>;
  return (
    <>
      {say(due ? 'bed.lookDueSince' : 'bed.lookDueFrom')} <When at={dueAt} />
      {reasons[0] ? (
        <>
          {': '}
          <Told>{reasons[0].text}</Told>
        </>
      ) : null}
    </>
  );
}

/** So few points that only what the watch does not use matters of the answer. */
const FEW = 10;

function Probes({ bed }: { bed: Bed }) {
  const { answer } = useSeen<Readings>(`/api/beds/${encodeURIComponent(bed.id)}/readings?points=${FEW}`, {
    live: ['readings'],
    bed: bed.id,
  });
  const depths = useSeen<readonly BuriedDepth[]>(`/api/beds/${encodeURIComponent(bed.id)}/depths`, {
    live: ['beds', 'site'],
    bed: bed.id,
  });
  if (bed.probes.length === 0) return <p>{say('bed.noProbes')}</p>;
  return (
    <Fold title={<h3 class="in-fold">{say('bed.probes')}</h3>}>
      <ul class="probe-facts">
        {bed.probes.map((probe) => (
          <li key={probe.id}>
            <ProbeFacts probe={probe} isOfThis={isOfThisFilling(bed, probe)} flags={flagsOf(answer, probe)} />
            <Depth depth={depths.answer?.find((one) => one.probe === probe.id)} />
          </li>
        ))}
      </ul>
    </Fold>
  );
}

/** Why the watch does not use what the probe sent last. */
function flagsOf(readings: Readings | undefined, { id, latest }: Probe): string[] {
  const flagged = (readings?.probes ?? []).filter(({ probe }) => probe === id).flatMap((one) => one.flagged);
  return [...new Set(flagged.filter(({ at }) => at === latest?.at).map(({ reason }) => reason))];
}

interface ProbeParts {
  readonly probe: Probe;
  /** Whether what it said last is of the filling that is in the bed now. */
  readonly isOfThis: boolean;
  readonly flags: readonly string[];
}

function ProbeFacts({ probe, isOfThis, flags }: ProbeParts) {
  const { id, model, online, latest } = probe;
  return (
    <>
      <p>
        <b>{id}</b> <span class="soft">{placeOf(probe)}</span>
      </p>
      {latest && !isOfThis ? <p>{say('bed.noReadingYet')}</p> : <Values probe={probe} flags={flags} />}
      <p class="soft">
        {onlineInWords(online)}{' '}
        {latest ? (
          <>
            {say('bed.lastHeard')} <When at={latest.at} />
          </>
        ) : (
          say('bed.neverHeard')
        )}
        {latest?.battery_V === undefined
          ? null
          : ` · ${say('bed.battery', { value: number(latest.battery_V, 2) })}`}
        {latest?.charge_EL === undefined
          ? null
          : ` · ${say('bed.charge', { value: number(latest.charge_EL) })}`}
        {model === null ? null : ` · ${model}`}
      </p>
    </>
  );
}

/** What it measured last, beside what a sound bed would show. */
function Values({ probe, flags }: Pick<ProbeParts, 'probe' | 'flags'>) {
  const { latest, expected_C, band_C, excess_C } = probe;
  const { temperature_C, temperatureUncertainty_C, temperatureDoubt } = latest ?? {};
  return (
    <>
      <p>
        {temperature_C === undefined ? say('bed.noValue') : celsius(temperature_C)}
        {temperatureUncertainty_C === undefined
          ? ` (${say('bed.notCalibratedShort')})`
          : ` ${say('bed.uncertainty', { value: number(temperatureUncertainty_C, 1), unit: '°C' })}`}
        {latest?.humidity_RH === undefined ? null : ` · ${humidity(latest.humidity_RH)}`}
        {latest?.humidityUncertainty_RH === undefined
          ? null
          : ` ${say('bed.uncertainty', { value: number(latest.humidityUncertainty_RH, 1), unit: '%' })}`}
      </p>
      <p>
        {expected_C === null
          ? say('bed.expectedUnknown')
          : say('bed.expectedIs', {
              ...{ value: celsius(expected_C), band: number(band_C ?? 0, 1) },
              excess: excess_C === null ? say('bed.unknown') : celsiusMore(excess_C),
            })}
      </p>
      {temperatureDoubt ? <p>{say(`bed.doubt-${temperatureDoubt}`)}</p> : null}
      {latest?.humidityDoubt ? <p>{say(`bed.humidity-doubt-${latest.humidityDoubt}`)}</p> : null}
      {flags.map((reason) => (
        <p key={reason}>{say('bed.notUsed', { reason: wordFor('bed', `flag-${reason}`) ?? reason })}</p>
      ))}
    </>
  );
}

/** Whether it lies as deep as said. */
function Depth({ depth }: { depth: BuriedDepth | undefined }) {
  if (depth === undefined) return null;
  return (
    <div data-depth={depth.verdict}>
      <Fold
        title={say('bed.depth', { verdict: depthWord(depth.verdict) })}
        open={depth.verdict === 'shallower' || depth.verdict === 'deeper'}
      >
        <p>
          <English>{depth.text}</English>
        </p>
      </Fold>
    </div>
  );
}

function onlineInWords(online: boolean | null): string {
  if (online === null) return say('bed.onlineUnknown');
  return say(online ? 'bed.online' : 'bed.offline');
}
