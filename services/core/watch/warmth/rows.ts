/** What a probe would show, as a sum of what is known and a row of what each unknown adds. */
import type { Spot } from './curve.js';
import type { History } from './history.js';
import { DAYS, GLOBAL, type Layout } from './layout.js';
import { FRESH_SHARE } from './priors.js';
import type { Responses } from './responses.js';
import { convolve, type ProbeTaps, responseAt, spotSince, type Taps } from './taps.js';

const CONSTANTS = ['surface', 'open', 'ground', 'deep', 'upper', 'lower'] as const;

/** Parts of a day at which a wave of a day stands at noon, evening, midnight and morning, whatever the clock. */
const WAVE: readonly (readonly [number, number])[] = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
];

/** Sand that was moved before, with what it was then taken for. */
export interface Disturbance {
  readonly half: 'upper' | 'lower';
  /** °C. */
  readonly size: number;
  /** Count of the step. */
  readonly step: number;
}

export interface RowInput {
  readonly layout: Layout;
  readonly responses: Responses;
  readonly taps: Taps;
  readonly history: History;
  /** Mean of the state, about which places and speeds are linear. */
  readonly x: Float64Array;
  readonly step: number;
  /** Steps since the beginning. */
  readonly count: number;
  readonly disturbedAt: Readonly<Record<'upper' | 'lower', number>>;
  readonly past: readonly Disturbance[];
  readonly blind: boolean;
  /** What the air gave at the probe in the last steps, oldest first. */
  readonly recent: readonly number[];
}

/** @returns what is known without the state, against the reference, °C; `row` is filled */
export function fillRow(input: RowInput, probe: number, row: Float64Array): number {
  const { layout, taps, history } = input;
  const at = (unknown: Parameters<Layout['probe']>[1]): number => layout.probe(probe, unknown);
  const air = taps.air[probe] as ProbeTaps;
  const roots = taps.roots[probe] as ProbeTaps;
  const own = (part: keyof ProbeTaps): number =>
    convolve(air[part], history.air) + convolve(roots[part], history.roots);
  const warmTaps = taps.rootsWarm[probe] as Float64Array;
  const warm = convolve(warmTaps, history.warm);
  const even = convolve(roots.value, history.roots);
  const fresh = convolve(roots.value, history.fresh);
  row[GLOBAL.roots] = even + warm;
  row[GLOBAL.fresh] = fresh;
  row[GLOBAL.settling] = convolve(roots.value, history.settling);
  row[GLOBAL.q10] = convolve(roots.value, history.q10) + convolve(warmTaps, history.q10Warm);
  row[GLOBAL.rootsX] = convolve(taps.rootsX[probe] as Float64Array, history.roots);
  row[GLOBAL.rootsY] = convolve(taps.rootsY[probe] as Float64Array, history.roots);
  row[GLOBAL.rootsZ] = convolve(taps.rootsZ[probe] as Float64Array, history.roots);
  row[at('roots')] = even + warm + FRESH_SHARE * fresh;
  row[at('offset')] = 1;
  row[at('x')] = own('x');
  row[at('y')] = own('y');
  row[at('depth')] = own('depth');
  row[GLOBAL.faster] = own('faster') - even;
  row[GLOBAL.aroundBetter] = own('aroundBetter');
  const begun = spotSince(input.count, taps.speed);
  for (const name of CONSTANTS) addConstant(input, probe, name, begun, row);
  row[GLOBAL.sunk] = row[at('depth')] as number;
  [row[at('wave')], row[at('quadrature')]] = waveOf(input);
  addDays(input, taps.surface[probe] as Float64Array, row);
  return own('value') + warm + leftOf(input, probe);
}

function addConstant(
  input: RowInput,
  probe: number,
  name: (typeof CONSTANTS)[number],
  begun: Spot,
  row: Float64Array,
): void {
  const { layout, responses, taps, x, count, disturbedAt } = input;
  const from = name === 'upper' || name === 'lower' ? disturbedAt[name] : 0;
  const spot = from === 0 ? begun : spotSince(count - from, taps.speed);
  const since = responseAt(spot, responses, name, probe);
  const mean = x[GLOBAL[name]] as number;
  const add = (at: number, value: number): void => {
    row[at] = (row[at] as number) + value;
  };
  row[GLOBAL[name]] = since.value;
  for (const axis of ['x', 'y', 'depth'] as const) add(layout.probe(probe, axis), mean * since[axis]);
  add(GLOBAL.faster, mean * since.faster);
  add(GLOBAL.aroundBetter, mean * since.aroundBetter);
}

/** What is left of earlier disturbances, °C. */
function leftOf({ responses, taps, count, past }: RowInput, probe: number): number {
  return past.reduce(
    (sum, { half, size, step }) =>
      sum + size * responseAt(spotSince(count - step, taps.speed), responses, half, probe).value,
    0,
  );
}

/** The daily wave as the air makes it, and a quarter of a day later; without a shade probe, any wave of a day. */
function waveOf({ blind, step, recent }: RowInput): readonly [number, number] {
  if (blind) return WAVE[((step % 4) + 4) % 4] as readonly [number, number];
  if (recent.length < 5) return [0, 0];
  const [oldest, , , before, now] = recent as [number, number, number, number, number];
  const mean = (recent.reduce((sum, value) => sum + value, 0) - oldest) / 4;
  return [now - mean, now - before - (now - oldest) / 4];
}

function addDays({ layout, step, count }: RowInput, surface: Float64Array, row: Float64Array): void {
  const oldest = Math.min(count, DAYS * 4 - 4);
  for (let back = 0; back <= oldest; back += 1) {
    const slot = layout.day(Math.floor((step - back) / 4));
    row[slot] = (row[slot] as number) + (surface[back] as number);
  }
}
