/** Values of a trial as they are read: with as many digits as beds differ by. */
import type { TrialResult } from '../api/types/trial.js';
import { number } from '../words/numbers.js';
import { say } from '../words/say.js';

/** Behind the point, so that a hundredth of the span of the beds is seen; 2 at the most. */
export function digitsFor(rows: TrialResult['rows']): number {
  const values = rows.flatMap(({ value }) => (value === null ? [] : [value]));
  const span = values.length === 0 ? 0 : Math.max(...values) - Math.min(...values);
  return span >= 5 || span === 0 ? 1 : 2;
}

const UNITS: Readonly<Record<string, 'percent' | 'degrees' | 'days'>> = {
  loss: 'percent',
  'sound-mass': 'percent',
  sprouted: 'percent',
  'highest-excess': 'degrees',
  'first-rot': 'days',
};

export function valueText(value: number, kind: string, digits: number): string {
  const unit = UNITS[kind];
  if (unit === 'percent') return say('trials.percent', { value: number(value, digits) });
  if (unit === 'degrees') return say('parts.degrees', { value: number(value, digits) });
  return unit === 'days' ? say('trials.days', { value: number(value) }) : number(value, digits);
}
