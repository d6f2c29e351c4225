/** Hand, span, forearm and stride of whoever uses this device: kept on it. */
import { MEASURE_LIMITS, USUAL_MEASURES } from '../../../core/keeping/measures.js';
import type { Measures } from '../../api/types/plan.js';
import { useKept } from '../../parts/kept.js';
import { typedNumber } from '../../parts/typed-number.js';
import { say } from '../../words/say.js';

export const MEASURES = ['hand', 'span', 'forearm', 'stride'] as const;
export type MeasureName = (typeof MEASURES)[number];

/** As typed, cm. */
export type TypedMeasures = Readonly<Record<MeasureName, string>>;

const USUAL: TypedMeasures = {
  hand: String(USUAL_MEASURES.hand_cm),
  span: String(USUAL_MEASURES.span_cm),
  forearm: String(USUAL_MEASURES.forearm_cm),
  stride: String(USUAL_MEASURES.stride_cm),
};

export const useOwnMeasures = () => useKept<TypedMeasures>('measures', USUAL);

/** Numbers, with what is wrong by the field's pointer; a field that was emptied is the usual measure. */
export function typedMeasures(typed: TypedMeasures): {
  readonly measures: Measures;
  readonly wrongs: Readonly<Record<string, string>>;
} {
  const wrongs: Record<string, string> = {};
  const read = (name: MeasureName): number => {
    const key = `${name}_cm` as const;
    const value = typedNumber(typed[name]) ?? USUAL_MEASURES[key];
    const { low, high } = MEASURE_LIMITS[key];
    if (!(value >= low && value <= high))
      wrongs[`measures/${key}`] = say('planning.expectedRange', { low, high });
    return value;
  };
  const measures = {
    hand_cm: read('hand'),
    span_cm: read('span'),
    forearm_cm: read('forearm'),
    stride_cm: read('stride'),
  };
  return { measures, wrongs };
}
