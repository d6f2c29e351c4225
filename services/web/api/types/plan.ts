/** `POST /api/plan`: what is asked, and the plan as `sandlarder plan --json` gives it. */
import type { Measures } from '../../../core/keeping/measures.js';
import type { StepSides } from '../../parts/steps-in-url.js';

export type { Measures } from '../../../core/keeping/measures.js';
export type { Plan, StepOfPlan } from '../../../core/keeping/plan-types.js';

export interface PlanQuestion {
  readonly kind: 'stepped-pit' | 'box';
  readonly steps?: readonly StepSides[];
  readonly roots?: number;
  readonly roots_kg?: number;
  readonly root_kg?: number;
  readonly bucket_L?: number;
  readonly measures?: Measures;
  /** As many as are worth it where absent; placing them takes some seconds. */
  readonly probes?: number;
  readonly ground_C?: number;
}
