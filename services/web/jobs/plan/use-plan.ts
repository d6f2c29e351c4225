/** Asks for a plan: its figures at once, then again with places for probes, which takes the service some seconds. */
import { useRef, useState } from 'preact/hooks';
import { ask } from '../../api/client.js';
import type { Plan, PlanQuestion } from '../../api/types/plan.js';
import { messageOf } from '../../parts/form.js';

/** Placing probes of a large bed on a busy station, ms. */
const LONGEST_ms = 180_000;

export interface Planned {
  readonly plan: Plan;
  /** Places for probes are being looked for, since then, wall clock, ms. */
  readonly placingSince?: number;
  /** Why there are none. */
  readonly placingFailed?: string;
}

export function usePlan(): {
  readonly planned: Planned | undefined;
  /** Resolves with the figures; the probes follow. Rejects as `ask`. */
  make(question: PlanQuestion): Promise<void>;
  show(plan: Plan | undefined): void;
} {
  const [planned, setPlanned] = useState<Planned>();
  const turn = useRef(0);
  const make = async (question: PlanQuestion): Promise<void> => {
    turn.current += 1;
    const own = turn.current;
    const setOwn = (next: Planned): void => {
      if (own === turn.current) setPlanned(next);
    };
    const plan = await askPlan({ ...question, probes: 0 });
    if (question.probes === 0) {
      setOwn({ plan });
      return;
    }
    setOwn({ plan, placingSince: Date.now() });
    askPlan(question).then(
      (whole) => setOwn({ plan: whole }),
      (error: unknown) => setOwn({ plan, placingFailed: messageOf(error) }),
    );
  };
  const show = (plan: Plan | undefined): void => {
    turn.current += 1;
    setPlanned(plan && { plan });
  };
  return { planned, make, show };
}

const askPlan = (question: PlanQuestion): Promise<Plan> =>
  ask<Plan>('/api/plan', {
    method: 'POST',
    body: question,
    signal: AbortSignal.timeout?.(LONGEST_ms),
  });
