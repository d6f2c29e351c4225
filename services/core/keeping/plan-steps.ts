/** The steps of a bed that is planned: what can be dug or built. */
import { requireInDomain, SandlarderError } from '../errors.js';
import { blocksOf, volume_L } from '../model/bed.js';
import { SITE_LIMITS } from '../model/site.js';
import { MOST_BED_L } from '../watch/coverage/index.js';
import { depthOf_cm, type PlanStep } from './plan-step.js';

export { depthOf_cm, type PlanStep } from './plan-step.js';

export type PlanKind = 'stepped-pit' | 'box';

/** Of a side, and of the height of one step, cm. Judgement: beyond it is a slip of the keyboard. */
export const SIDE_cm = { low: 20, high: 1000 } as const;
export const HEIGHT_cm = { low: 5, high: 200 } as const;

/** Of the whole bed, cm. Judgement: twice what reaches to the waist. */
export const MOST_DEPTH_cm = 200;

/** Volume of each step, L. */
export const volumesOfSteps_L = (steps: readonly PlanStep[]): number[] =>
  blocksOf(steps).map((block) => volume_L([block]));

function requireUnder(upper: PlanStep, lower: PlanStep, number: number): void {
  for (const side of ['length', 'width'] as const)
    if (!(lower[side] <= upper[side]))
      throw new SandlarderError(
        'OUT_OF_DOMAIN',
        `step ${number}: expected a ${side} of at most ${upper[side]} cm, that of the step above, got ${lower[side]} cm`,
      );
}

/**
 * @throws SandlarderError OUT_OF_DOMAIN for sides that are no bed's, a step wider than the one above it, a box of more
 * than one step or more than 2 m of depth; LIMIT_EXCEEDED for more than 10 m3
 */
export function requirePlanSteps(kind: PlanKind, steps: readonly PlanStep[]): void {
  requireInDomain(`number of steps of a ${kind}`, steps.length, 1, kind === 'box' ? 1 : SITE_LIMITS.steps);
  steps.forEach((step, index) => {
    const name = `step ${index + 1}`;
    requireInDomain(`${name}: length, cm,`, step.length, SIDE_cm.low, SIDE_cm.high);
    requireInDomain(`${name}: width, cm,`, step.width, SIDE_cm.low, SIDE_cm.high);
    requireInDomain(`${name}: height, cm,`, step.height, HEIGHT_cm.low, HEIGHT_cm.high);
    const above = steps[index - 1];
    if (above) requireUnder(above, step, index + 1);
  });
  requireInDomain('depth of the bed, cm,', depthOf_cm(steps), 1, MOST_DEPTH_cm);
  const total_L = volume_L(blocksOf(steps));
  if (!(total_L <= MOST_BED_L))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `bed: expected at most ${MOST_BED_L} L, got ${Math.round(total_L)} L; plan several smaller ones`,
    );
}
