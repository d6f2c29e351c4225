/** The worst of several probes, by which a bed is judged: one that did not measure may be the worst. */
import type { CalibratedQuantity } from '../model/calibration.js';
import { type ProbeHour, type TwoDays, twoDaysOf } from './readiness-days.js';
import { type Answer, metIf } from './readiness-item.js';

/** A probe of the bed. */
export interface ReadinessProbe {
  readonly id: string;
  /** In sand that is to be kept, or in the air of a pit that is not filled yet. */
  readonly lies: 'sand' | 'open pit';
  /** Below the top of the sand; of an open pit, below its edge. */
  readonly depth_cm: number;
  readonly hours: readonly ProbeHour[];
  /** Event time of its newest reading, ms; null where it never spoke. */
  readonly lastHeardAt: number | null;
  /** When each quantity that it measures was calibrated, ms; null where it never was. */
  readonly calibratedAt: Readonly<Partial<Record<CalibratedQuantity, number | null>>>;
}

export interface ProbeInputs {
  readonly at: number;
  readonly probes: readonly ReadinessProbe[];
  /** Hours of the probe in the shade; undefined where there is none. */
  readonly shade: readonly ProbeHour[] | undefined;
}

/** With one digit behind the point; what rounds to nothing has no sign. */
export const fixed = (value: number): string => value.toFixed(1).replace(/^-(0\.0)$/, '$1');

export const unknown = (measure: string): Answer => ({ measure, state: 'unknown' });

export const TOO_FEW = 'fewer than 18 hours of one of the last two days were measured';

/** Values of probes with their names. */
export interface Values<Value> {
  readonly found: readonly { readonly id: string; readonly value: Value }[];
  /** Whether there is a probe, and none of them lacks its value. */
  readonly isComplete: boolean;
}

export function valuesOf<Value>(
  probes: readonly ReadinessProbe[],
  pick: (probe: ReadinessProbe) => Value | undefined,
): Values<Value> {
  const found = probes.flatMap((probe) => {
    const value = pick(probe);
    return value === undefined ? [] : [{ id: probe.id, value }];
  });
  return { found, isComplete: found.length > 0 && found.length === probes.length };
}

/** The same with another value for each. */
export const mapped = <From, To>(values: Values<From>, pick: (value: From) => To): Values<To> => ({
  ...values,
  found: values.found.map(({ id, value }) => ({ id, value: pick(value) })),
});

/** What one probe shows to be wrong is so whatever the others would show; what none shows to be wrong may still be. */
export const stateOfValues = (isComplete: boolean, holds: boolean): Answer['state'] =>
  holds && !isComplete ? 'unknown' : metIf(holds);

export interface Named {
  readonly id: string;
  readonly value: number;
}

export const greatest = (values: readonly Named[]): Named =>
  values.reduce((most, next) => (next.value > most.value ? next : most));

export const least = (values: readonly Named[]): Named =>
  values.reduce((low, next) => (next.value < low.value ? next : low));

/** The worst of a value over probes against what it may be at most. */
export function atMost({ found, isComplete }: Values<number>, most: number, unit: string): Answer {
  if (found.length === 0) return unknown(TOO_FEW);
  const worst = greatest(found);
  const state = stateOfValues(isComplete, worst.value <= most);
  if (state === 'unknown') return unknown(TOO_FEW);
  return { measure: `${fixed(worst.value)} ${unit} (${worst.id})`, state };
}

export const humiditiesOf = (probes: readonly ReadinessProbe[], at: number): Values<TwoDays> =>
  valuesOf(probes, ({ hours }) => twoDaysOf(hours, 'humidity_RH', at));

export const highest = ({ before, last }: TwoDays): number => Math.max(before, last);
