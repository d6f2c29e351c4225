/** One probe opened: what it measured, what was expected, what is to be doubted, and what rests on it. */
import { useEffect, useRef } from 'preact/hooks';
import { withDegrees } from '../../../core/alarms/degrees.js';
import { useSeen } from '../../api/seen.js';
import type { Alarm } from '../../api/types/alarm.js';
import type { Doubt } from '../../api/types/bed.js';
import { Button } from '../../parts/button.js';
import { When } from '../../parts/when.js';
import { celsius, celsiusMore, feelsLike, humidity, number } from '../../words/numbers.js';
import { say, wordFor } from '../../words/say.js';
import { dayOf } from '../../words/times.js';
import { excessInWords, placeOf } from './probe-words.js';
import type { ProbeThen } from './then.js';

interface OpenParts {
  readonly probe: ProbeThen;
  readonly alarms: readonly Alarm[];
  readonly site: string;
  readonly onClose: () => void;
}

export function ProbeOpen({ probe, alarms, site, onClose }: OpenParts) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), [probe.id]);
  const own = alarms.filter(({ evidence }) => evidence['probe'] === probe.id);
  return (
    <section class="card probe-open" aria-labelledby="probe-open">
      <h3 id="probe-open" ref={heading} tabIndex={-1}>
        {say('bed.probe', { id: probe.id })}
      </h3>
      <p>{placeOf(probe)}</p>
      <Values probe={probe} />
      {own.map(({ id, text, language = 'en' }) => (
        <p key={id}>
          <a href={`/alarms/${encodeURIComponent(id)}`}>{say('bed.alarmOfProbe')}</a>{' '}
          <span lang={language}>{withDegrees(text)}</span>
        </p>
      ))}
      <Calibrations probe={probe.id} site={site} />
      <Button kind="quiet" onPress={onClose}>
        {say('parts.close')}
      </Button>
    </section>
  );
}

function Values({ probe }: { probe: ProbeThen }) {
  const { latest, expected_C, band_C, excess_C, flagged } = probe;
  return (
    <>
      <dl class="facts">
        <Measured
          name={say('bed.temperature')}
          value={latest?.temperature_C}
          write={(value) => say('bed.feels', { value: celsius(value), feels: feelsLike(value) })}
          uncertainty={latest?.temperatureUncertainty_C}
          unit="°C"
          doubt={latest?.temperatureDoubt}
        />
        <Fact name={say('bed.expected')}>
          {expected_C === null
            ? say('parts.unknown')
            : say('bed.withBand', { value: celsius(expected_C), band: number(band_C ?? 0, 1) })}
        </Fact>
        <Fact name={say('bed.excess')}>
          {excess_C === null
            ? say('bed.unknown')
            : say('bed.feels', { value: celsiusMore(excess_C), feels: excessInWords(probe) })}
        </Fact>
        <Measured
          name={say('bed.humidity')}
          value={latest?.humidity_RH}
          write={(value) => humidity(value)}
          uncertainty={latest?.humidityUncertainty_RH}
          unit="%"
          doubt={latest?.humidityDoubt}
        />
        <Fact name={say('bed.measuredAt')}>{latest ? <When at={latest.at} /> : say('bed.noReading')}</Fact>
      </dl>
      {flagged.map((reason) => (
        <p key={reason}>{say('bed.notUsed', { reason: wordFor('bed', `flag-${reason}`) ?? reason })}</p>
      ))}
    </>
  );
}

export function Fact({ name, children }: { name: string; children: preact.ComponentChildren }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

interface MeasuredParts {
  readonly name: string;
  readonly value: number | undefined;
  readonly write: (value: number) => string;
  readonly uncertainty: number | undefined;
  readonly unit: string;
  readonly doubt: Doubt | undefined;
}

function Measured({ name, value, write, uncertainty, unit, doubt }: MeasuredParts) {
  if (value === undefined) return <Fact name={name}>{say('bed.notMeasured')}</Fact>;
  return (
    <Fact name={name}>
      {write(value)}
      {uncertainty === undefined ? null : (
        <span class="soft"> {say('bed.uncertainty', { value: number(uncertainty, 1), unit })}</span>
      )}
      {doubt === undefined ? null : <b> {say(`bed.doubt-${doubt}`)}</b>}
    </Fact>
  );
}

interface Calibration {
  readonly id: string;
  readonly quantity: string;
  readonly doneAt: string;
  readonly by: string;
  readonly inForce: boolean;
}

function Calibrations({ probe, site }: { probe: string; site: string }) {
  const query = new URLSearchParams({ site, probe, inForce: 'true' });
  const { answer } = useSeen<readonly Calibration[]>(`/api/calibrations?${query}`, {
    live: ['bench', 'probes'],
  });
  if (answer === undefined) return null;
  if (answer.length === 0) return <p>{say('bed.notCalibrated')}</p>;
  return (
    <ul>
      {answer.map(({ id, quantity, doneAt, by }) => (
        <li key={id}>
          <a
            href={`/api/calibrations/${encodeURIComponent(id)}/certificate`}
            rel="noopener external"
            target="_blank"
          >
            {say('bed.calibrated', {
              quantity: wordFor('bed', quantity) ?? quantity,
              ...{ day: dayOf(doneAt), by },
            })}
          </a>
        </li>
      ))}
    </ul>
  );
}
