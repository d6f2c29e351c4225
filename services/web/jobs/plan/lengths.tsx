/** Lengths in centimetres, and in the measures of whoever digs. */
import { inMeasures } from '../../../core/keeping/measures.js';
import type { Measures, StepOfPlan } from '../../api/types/plan.js';
import { English } from '../../parts/notice.js';
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';

const few = (cm: number): string => number(cm, Number.isInteger(cm) ? 0 : 1);

export const sidesOf = ({ length_cm, width_cm, height_cm }: StepOfPlan): string =>
  say('planning.sides', { length: few(length_cm), width: few(width_cm), height: few(height_cm) });

/** Nearer than this no measure of a hand is of use, cm. */
const LEAST_cm = 5;

interface LengthParts {
  readonly cm: number;
  readonly measures: Measures;
  readonly words: 'stepLong' | 'stepWide' | 'stepHigh' | 'probeAlong' | 'probeAcross' | 'probeDeep';
}

/** `150 cm long (2 strides)`. */
export function Length({ cm, measures, words }: LengthParts) {
  const length = say('parts.centimetres', { value: few(cm) });
  return (
    <>
      {say(`planning.${words}`, {
        length,
        width: length,
        height: length,
        x: length,
        y: length,
        depth: length,
      })}
      {cm >= LEAST_cm ? (
        <span class="soft">
          {' '}
          <English>({inMeasures(cm, measures)})</English>
        </span>
      ) : null}
    </>
  );
}
