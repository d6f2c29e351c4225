/** Plans that are kept on this device: they are there without a network, and in no service. */
import type { Plan } from '../../api/types/plan.js';
import { keep, keptNow } from '../../parts/kept.js';
import { litres, number } from '../../words/numbers.js';
import { say } from '../../words/say.js';

export interface KeptPlan {
  readonly id: string;
  /** Wall clock, ms. */
  readonly keptAt: number;
  readonly plan: Plan;
}

export const KEPT_PLANS = 'plans';

/** About 20 KB each; the oldest go. */
const MOST_PLANS = 12;

/** Newest first. */
export const keptPlans = (): readonly KeptPlan[] => keptNow<readonly KeptPlan[]>(KEPT_PLANS, []);

export const keptPlan = (id: string): KeptPlan | undefined => keptPlans().find((kept) => kept.id === id);

/** @returns false where the browser keeps nothing, or no more */
export const keepPlan = (plan: KeptPlan): boolean =>
  keep(KEPT_PLANS, [plan, ...keptPlans()].slice(0, MOST_PLANS));

export function dropPlan(id: string): void {
  keep(
    KEPT_PLANS,
    keptPlans().filter((kept) => kept.id !== id),
  );
}

export const nameOfPlan = ({ plan }: KeptPlan): string =>
  say('planning.keptName', {
    kind: plan.kind,
    volume: litres(plan.volume_L.total),
    roots: number(plan.roots),
  });
