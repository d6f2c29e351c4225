/** What whoever digs, carries and fills must know before they begin. */
import { DIGGING_CAUTION, FOOD_CAUTION, UNSEEN_CAUTION } from '../alarms/cautions.js';
import { figureOf } from './plan-figures.js';
import { depthOf_cm, type PlanKind, type PlanStep } from './plan-steps.js';

/** Common practice in digging, no source. */
const DEEP_CAUTION =
  'This pit reaches over the waist: never work in it alone, and shore or slope its sides as the local rules on ' +
  'trenches ask. A shallower, longer pit holds as much.';

/** Termites and rats were the main losses of stepped pits: Abidin et al. 2016 (abstract). Baits: common practice, no source. */
export const PEST_CAUTION =
  'Rats and termites take most from pits: close every gap. Keep baits and poisons where neither children nor ' +
  'animals nor the roots come to them: never put them into the sand.';

/** Common practice, no source. */
export const SOUND_CAUTION =
  'Only whole, cured, cooled roots go in, into sand that is dry and cool. One rotten or wounded root spoils those around it.';

const kilograms = (kg: number): string => `${Math.round(kg)} kg`;

function liftingCaution(bucket_kg: number): string {
  const weight = `A full bucket of sand weighs about ${kilograms(bucket_kg)}`;
  return bucket_kg > figureOf('heavy')
    ? `${weight}, more than one person should lift (${kilograms(figureOf('heavy'))}): fill it less, or carry it by two.`
    : `${weight}: lift it close to the body, with straight back, and take turns.`;
}

const reachCaution = (width_cm: number): string =>
  `The bed is ${width_cm} cm wide: its middle is not reached by hand from the edge, and nobody should step on the roots.`;

export const NO_REST_CAUTION =
  'At the upper end of what is known of roots and sand, so large a bed would warm itself without end: make it shallower, ' +
  'narrower, or several.';

export interface Cautioned {
  readonly kind: PlanKind;
  readonly steps: readonly PlanStep[];
  readonly bucket_kg: number;
  /** Whether a steady warmth was found. */
  readonly rests: boolean;
}

/** In the order of the work: digging, carrying, filling, keeping. */
export function planCautions({ kind, steps, bucket_kg, rests }: Cautioned): string[] {
  const width_cm = steps[0]?.width ?? 0;
  const deep = kind !== 'box' && depthOf_cm(steps) > figureOf('waist');
  return [
    ...(rests ? [] : [NO_REST_CAUTION]),
    ...(kind === 'box' ? [] : [DIGGING_CAUTION]),
    ...(deep ? [DEEP_CAUTION] : []),
    liftingCaution(bucket_kg),
    ...(width_cm > 2 * figureOf('reach') ? [reachCaution(width_cm)] : []),
    SOUND_CAUTION,
    PEST_CAUTION,
    FOOD_CAUTION,
    UNSEEN_CAUTION,
  ];
}
