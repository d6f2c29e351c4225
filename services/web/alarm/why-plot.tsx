/** A few readings of one probe as a line, with what a sound bed would show and the time of the raising. */
import type { Quantity, StoryReading } from '../api/types/alarm-story.js';
import { say } from '../words/say.js';

const [WIDTH, HEIGHT, EDGE] = [320, 110, 8];

interface PlotParts {
  readonly readings: readonly StoryReading[];
  readonly quantity: Quantity;
  readonly probe: string;
  readonly raisedAt: string;
  /** A value with its unit. */
  readonly measure: (value: number) => string;
}

export const measuredIn = (reading: StoryReading, quantity: Quantity): number | null =>
  quantity === 'temperature' ? reading.temperature_C : reading.humidity_RH;

export function WhyPlot({ readings, quantity, probe, raisedAt, measure }: PlotParts) {
  const values = readings.flatMap((reading) => measuredIn(reading, quantity) ?? []);
  const expected = quantity === 'temperature' ? readings.flatMap((one) => one.expected_C ?? []) : [];
  if (values.length < 2) return null;
  const times = readings.map(({ at }) => Date.parse(at));
  const [first, last] = [Math.min(...times), Math.max(...times)];
  const [low, high] = [Math.min(...values, ...expected), Math.max(...values, ...expected)];
  const right = (at: string): number =>
    EDGE + ((Date.parse(at) - first) / Math.max(1, last - first)) * (WIDTH - 2 * EDGE);
  const down = (value: number): number =>
    HEIGHT - EDGE - ((value - low) / Math.max(0.1, high - low)) * (HEIGHT - 2 * EDGE);
  const lineOf = (of: (reading: StoryReading) => number | null): string =>
    readings
      .flatMap((reading) => {
        const value = of(reading);
        return value === null ? [] : [`${right(reading.at).toFixed(1)},${down(value).toFixed(1)}`];
      })
      .join(' ');
  const words = {
    quantity: say(quantity === 'temperature' ? 'alarm.quantityTemperature' : 'alarm.quantityHumidity'),
    ...{ probe, low: measure(Math.min(...values)), high: measure(Math.max(...values)) },
  };
  return (
    <svg
      class="alarm-plot"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={say('alarm.plot', words)}
    >
      <line class="raised" x1={right(raisedAt)} x2={right(raisedAt)} y1="0" y2={HEIGHT} stroke-width="2" />
      <polyline
        class="expected"
        points={lineOf(({ expected_C }) => (expected.length > 0 ? expected_C : null))}
        fill="none"
        stroke-width="2"
      />
      <polyline
        points={lineOf((one) => measuredIn(one, quantity))}
        fill="none"
        stroke="currentColor"
        stroke-width="2"
      />
    </svg>
  );
}
