/** A few readings of a probe around an alarm, and the calibration by which they were corrected. */
import type { CalibrationThen, Quantity, StoryProbe } from '../api/types/alarm-story.js';
import { Wide } from '../parts/wide.js';
import { celsius, humidity, number } from '../words/numbers.js';
import { say } from '../words/say.js';
import { dayAndTime, dayOf } from '../words/times.js';
import { measuredIn, WhyPlot } from './why-plot.js';

interface ReadingsParts {
  readonly probe: StoryProbe;
  readonly quantity: Quantity;
  readonly raisedAt: string;
}

export function WhyReadings({ probe, quantity, raisedAt }: ReadingsParts) {
  const readings = probe.readings.filter((reading) => measuredIn(reading, quantity) !== null);
  const measure = (value: number): string =>
    quantity === 'temperature' ? celsius(value, 1) : humidity(value, 1);
  const title = say('alarm.readings', { probe: probe.probe });
  if (readings.length === 0) return <p>{say('alarm.noReadings')}</p>;
  return (
    <>
      <h3>{title}</h3>
      <WhyPlot {...{ readings, quantity, raisedAt, measure }} probe={probe.probe} />
      <Wide label={title}>
        <table>
          <thead>
            <tr>
              <th scope="col">{say('alarm.time')}</th>
              <th scope="col">{say('alarm.measured')}</th>
              {quantity === 'temperature' ? <th scope="col">{say('alarm.expected')}</th> : null}
            </tr>
          </thead>
          <tbody>
            {readings.map((reading) => (
              <tr key={reading.at}>
                <td>{dayAndTime(reading.at)}</td>
                <td>{measure(measuredIn(reading, quantity) ?? 0)}</td>
                {quantity === 'temperature' ? (
                  <td>{reading.expected_C === null ? '' : measure(reading.expected_C)}</td>
                ) : null}
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
      <Calibrated then={probe.calibrations[quantity]} quantity={quantity} />
    </>
  );
}

function Calibrated({ then, quantity }: { then: CalibrationThen | null; quantity: Quantity }) {
  if (then === null) return <p>{say('alarm.uncalibrated')}</p>;
  const when = dayOf(then.doneAt);
  const uncertainty =
    then.uncertainty === null
      ? undefined
      : quantity === 'temperature'
        ? celsius(then.uncertainty, 2)
        : `${number(then.uncertainty, 1)} %RH`;
  return (
    <p>
      {uncertainty === undefined
        ? say('alarm.calibratedPlain', { when })
        : say('alarm.calibrated', { when, uncertainty })}{' '}
      <a
        href={`/api/calibrations/${encodeURIComponent(then.id)}/certificate`}
        rel="noopener external"
        target="_blank"
      >
        {say('alarm.calibration')}
      </a>
    </p>
  );
}
