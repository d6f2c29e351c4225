/** A plan as it is given out: keys with their units, one level of words. */
import type { Measures } from './measures.js';
import type { PlanFigure } from './plan-figures.js';
import type { PlannedProbe } from './plan-probes.js';
import type { PlanKind } from './plan-steps.js';
import type { Roof } from './roof.js';
import type { RootSize } from './root-size.js';
import type { TakenAlong } from './take-along.js';
import type { SoundWarmth } from './warmth-above-ground.js';

export interface StepOfPlan {
  readonly length_cm: number;
  readonly width_cm: number;
  readonly height_cm: number;
}

/** As it is laid, from 1 at the floor; depths from the top of the sand. */
export interface CourseOfPlan {
  readonly course: number;
  /** From 1 at the top. */
  readonly step: number;
  readonly top_cm: number;
  readonly bottom_cm: number;
  readonly roots: number;
}

/** Whether the bed takes what was asked for; if not, the nearest that does. */
export type PlanFit =
  | { readonly fits: true }
  | {
      readonly fits: false;
      readonly nearest: {
        readonly beds: number;
        readonly steps: readonly StepOfPlan[];
        readonly most_roots: number;
      };
    };

export type Plan = PlanFit & {
  readonly kind: PlanKind;
  /** Whether the bed was proposed here. */
  readonly proposed: boolean;
  /** So many beds alike: all below but `all_beds` and `asked_roots` is of one. */
  readonly beds: number;
  readonly steps: readonly StepOfPlan[];
  readonly volume_L: { readonly steps: readonly number[]; readonly total: number };
  readonly asked_roots?: number;
  /** That fit. */
  readonly most_roots: number;
  /** That are planned for. */
  readonly roots: number;
  readonly roots_kg: number;
  readonly root: RootSize;
  readonly courses: readonly CourseOfPlan[];
  readonly sand_L: number;
  readonly sand_kg: number;
  readonly buckets: number;
  readonly bucket_L: number;
  readonly bucket_kg: number;
  /** In the ground; once dug out it is more. */
  readonly digging_L: number;
  readonly dug_out_L: { readonly low: number; readonly high: number };
  /** null for a box: it stands under a roof. */
  readonly roof: Roof | null;
  readonly ground_C: number;
  /** Of the middle of the bed, sound and settled; null where it might find no rest. */
  readonly warmth_above_ground_C: SoundWarmth | null;
  readonly probes: readonly PlannedProbe[];
  readonly coverage_share: number;
  readonly coverage_share_by_count: readonly number[];
  readonly all_beds: {
    readonly roots: number;
    readonly sand_L: number;
    readonly sand_kg: number;
    readonly buckets: number;
    readonly digging_L: number;
  };
  readonly take_along: readonly TakenAlong[];
  /** What is done, in its order, in words. */
  readonly work: readonly string[];
  readonly cautions: readonly string[];
  readonly measures: Measures;
  readonly assumptions: Readonly<Record<string, PlanFigure>>;
};
