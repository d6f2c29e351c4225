import type { Step } from '../model/bed.js';

/** A step as it is planned, cm: each in the middle under the one above. */
export type PlanStep = Pick<Step, 'length' | 'width' | 'height'>;

export const depthOf_cm = (steps: readonly PlanStep[]): number =>
  steps.reduce((sum, { height }) => sum + height, 0);
