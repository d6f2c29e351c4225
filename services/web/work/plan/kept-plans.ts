/** Plans that are kept on this device: they are there without a network, and in no service. */
import type { Plan } from '../../api/types/plan.js';
import { keep, keptNow } from '../../parts/kept.js';

export interface KeptPlan {
  readonly id: string;
  readonly name: string;
  /** Wall clock, ms. */
  readonly keptAt: number;
  readonly plan: Plan;
}

const KEPT = 'plans';

/** About 20 KB each; the oldest go. */
const MOST_PLANS = 12;

/** Newest first. */
export const keptPlans = (): readonly KeptPlan[] => keptNow<readonly KeptPlan[]>(KEPT, []);

export const keptPlan = (id: string): KeptPlan | undefined => keptPlans().find((kept) => kept.id === id);

/** @returns false where the browser keeps nothing, or no more */
export function keepPlan(plan: KeptPlan): boolean {
  return keep(KEPT, [plan, ...keptPlans().filter(({ id }) => id !== plan.id)].slice(0, MOST_PLANS));
}

export function dropPlan(id: string): void {
  keep(
    KEPT,
    keptPlans().filter((kept) => kept.id !== id),
  );
}
