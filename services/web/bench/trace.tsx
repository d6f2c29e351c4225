/** A small line of what a probe showed in the last minutes. */
import type { ProbeSettling, Quantity } from '../api/types/bench.js';
import { say } from '../words/say.js';
import { measure } from './measure.js';

const WIDTH = 280;
const HEIGHT = 56;
const EDGE = 4;

/** The least height of the plot, so that steps of a still probe do not look like storms; °C or %RH. */
const LEAST_SPAN: Readonly<Record<Quantity, number>> = { temperature: 0.2, humidity: 1 };

interface TraceParts {
  readonly probe: string;
  readonly quantity: Quantity;
  readonly trace: ProbeSettling['trace'];
}

export function Trace({ probe, quantity, trace }: TraceParts) {
  const first = trace[0];
  const last = trace.at(-1);
  if (!first || !last || trace.length < 2) return null;
  const values = trace.map(({ value }) => value);
  const middle = (Math.max(...values) + Math.min(...values)) / 2;
  const span = Math.max(Math.max(...values) - Math.min(...values), LEAST_SPAN[quantity]);
  const [from, to] = [Date.parse(first.at), Date.parse(last.at)];
  const x = (at: string): number => EDGE + ((Date.parse(at) - from) / (to - from)) * (WIDTH - 2 * EDGE);
  const y = (value: number): number => HEIGHT / 2 - ((value - middle) / span) * (HEIGHT - 2 * EDGE);
  const label = say('bench.traceLabel', {
    probe,
    from: measure(quantity, first.value),
    to: measure(quantity, last.value),
  });
  return (
    <svg class="trace" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={label}>
      <polyline
        points={trace.map(({ at, value }) => `${x(at).toFixed(1)},${y(value).toFixed(1)}`).join(' ')}
      />
      <circle cx={x(last.at)} cy={y(last.value)} r={3.5} />
    </svg>
  );
}
