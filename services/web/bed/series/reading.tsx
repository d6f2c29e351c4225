/** The crosshair: a handle on the time axis, and what stands at it in words. */
import { celsius, feelsLike, number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { dayAndTime } from '../../words/times.js';
import type { SeriesModel } from './model.js';
import { useDrawn } from './model.js';
import { MINUTE_ms } from './span.js';
import { type Around, type ValuesAt, valuesAt } from './values-at.js';

/** Steps of the handle from one end of the plots to the other. */
const STEPS = 120;

export function Reading({ model }: { model: SeriesModel }) {
  useDrawn(model);
  const { view } = model;
  const at = model.pointed ?? view.to;
  const words = readingWords(model, Math.min(Math.max(at, view.from), view.to));
  return (
    <div class="reading">
      <label class="reading-handle">
        <span class="aloud">{say('series.handle')}</span>
        <input
          type="range"
          min={0}
          max={STEPS}
          step={1}
          value={Math.round((STEPS * (at - view.from)) / (view.to - view.from))}
          aria-valuetext={words}
          onInput={({ currentTarget }) =>
            model.point(view.from + (Number(currentTarget.value) / STEPS) * (view.to - view.from))
          }
        />
      </label>
      <p class="reading-words">{words}</p>
    </div>
  );
}

/** Whole sentences, one after the other. */
export function readingWords(model: SeriesModel, at: number): string {
  const { front, others } = model.choice;
  const when = dayAndTime(Math.round(at / MINUTE_ms) * MINUTE_ms);
  const values = valuesAt(model, front, at);
  return [
    measuredWords(when, front, values),
    expectedWords(values),
    values.humidity && say('series.atHumidity', { value: moisture(values.humidity) }),
    doubtWords(values),
    ...values.flagged.map(({ quantity, reason, value }) =>
      say(`series.atFlagged_${quantity}`, { value: number(value, 1), why: reasonWords(reason) }),
    ),
    others ? othersWords(model, at) : undefined,
  ]
    .filter(Boolean)
    .join(' ');
}

export const reasonWords = (reason: string): string =>
  ({
    'sensor-code': say('series.why_sensor_code'),
    'out-of-range': say('series.why_out_of_range'),
    spike: say('series.why_spike'),
    'impossible-rate': say('series.why_impossible_rate'),
    stuck: say('series.why_stuck'),
    unsettled: say('series.why_unsettled'),
    clock: say('series.why_clock'),
  })[reason] ?? reason;

/** Both ends with one unit behind them. */
function between([least, greatest]: Around, digits: number, withUnit: (value: string) => string): string {
  const [low, high] = [number(least, digits), number(greatest, digits)];
  return withUnit(low === high ? low : say('series.fromTo', { low, high }));
}

const degrees = (around: Around): string => between(around, 1, (value) => say('parts.degrees', { value }));
const moisture = (around: Around): string => between(around, 0, (value) => say('parts.humidity', { value }));

function measuredWords(when: string, probe: string, { temperature, uncertainty_C }: ValuesAt): string {
  if (!temperature) return say('series.atNothing', { when, probe });
  const value = degrees(temperature);
  const feels = feelsLike((temperature[0] + temperature[1]) / 2);
  if (uncertainty_C === undefined) return say('series.at', { when, probe, value, feels });
  return say('series.atKnown', { when, probe, value, feels, off: celsius(uncertainty_C, 2) });
}

function expectedWords({ expected_C, band_C, excess_C }: ValuesAt): string | undefined {
  if (expected_C === undefined || excess_C === undefined) return undefined;
  const values = {
    expected: celsius(expected_C),
    band: celsius(band_C ?? 0),
    excess: celsius(Math.abs(excess_C)),
  };
  if (band_C !== undefined && Math.abs(excess_C) <= band_C) return say('series.atAsExpected', values);
  return say(excess_C > 0 ? 'series.atWarmer' : 'series.atCooler', values);
}

function doubtWords({ doubt }: ValuesAt): string | undefined {
  if (doubt === 'outside') return say('series.doubtOutside');
  return doubt === 'drifted' ? say('series.doubtDrifted') : undefined;
}

function othersWords(model: SeriesModel, at: number): string | undefined {
  const { front } = model.choice;
  const list = model.site.probes.flatMap((probe) => {
    const temperature = probe === front ? undefined : valuesAt(model, probe, at).temperature;
    return temperature ? [say('series.atOther', { probe, value: degrees(temperature) })] : [];
  });
  return list.length === 0 ? undefined : say('series.atOthers', { list: list.join(', ') });
}
