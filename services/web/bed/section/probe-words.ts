/** A probe in words. */
import { celsius, celsiusMore, number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { excessStep } from './excess.js';
import type { ProbeThen } from './then.js';
import type { Point } from './views.js';

/** Where it lies, measured. */
export const placeOf = ({ x, y, depth }: Point): string =>
  say('bed.placeOf', { along: number(x), across: number(y), deep: number(depth) });

/** How it stands beside what is expected. */
export function excessInWords({ excess_C }: ProbeThen): string {
  if (excess_C === null) return say('bed.unknown');
  return say(`bed.${excessStep(excess_C)}`);
}

/** A probe's button, for those who hear it. */
export function probeName(probe: ProbeThen): string {
  const { id, latest, excess_C } = probe;
  const measured = latest?.temperature_C;
  return say('bed.probeName', {
    ...{ id, place: placeOf(probe), stands: excessInWords(probe) },
    excess: excess_C === null ? say('bed.unknown') : celsiusMore(excess_C),
    measured: measured === undefined ? say('bed.noValue') : celsius(measured),
  });
}
