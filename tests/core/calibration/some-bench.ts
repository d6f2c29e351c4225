/** Made-up bench work of three probes. */
import {
  beginPoint,
  capture,
  openBench,
  type Settling,
  settlingOf,
} from '../../../services/core/calibration/index.js';
import type { Bench } from '../../../services/core/model/bench.js';
import type { CalibratedQuantity } from '../../../services/core/model/calibration.js';
import { readings, START } from './bench-readings.js';

export const MINUTE_ms = 60_000;

export const BODY = {
  site: 'ridge',
  probes: ['p01', 'p02', 'p03'],
  quantity: 'temperature',
  by: 'bench-hand',
  reference: { name: 'glass thermometer' },
  conditions: { temperature_C: 21 },
} as const;

/** Frozen through and through: a step that writes into the bench before it throws. */
export function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null) {
    Object.values(value).forEach(frozen);
    Object.freeze(value);
  }
  return value;
}

export const someBench = (quantity: CalibratedQuantity = 'temperature'): Bench =>
  frozen(openBench({ ...BODY, quantity }, 'b1', START));

/** A bench whose first point, in ice, began at START. */
export const inIce = (): Bench => frozen(beginPoint(someBench(), { source: 'ice-point' }, START));

/** Of a probe that showed one value every 10 s for 6 min; its step is known. */
export const restingAt = (bench: Bench, value: number, probe = 'p01'): Settling =>
  settlingOf(
    bench,
    probe,
    readings(10, 6, () => value),
    0.01,
  );

/** Captures probes that rest, each at its own value, 6 min after START. */
export function captured(bench: Bench, values: Readonly<Record<string, number>>): Bench {
  const settlings = Object.entries(values).map(
    ([probe, value]) => [probe, restingAt(bench, value, probe)] as const,
  );
  return frozen(capture(bench, Object.keys(values), new Map(settlings), START + 6 * MINUTE_ms));
}

/** What is said of a refusal. */
export function saying(call: () => unknown): string {
  try {
    call();
  } catch (error) {
    return (error as Error).message;
  }
  return 'no error';
}
