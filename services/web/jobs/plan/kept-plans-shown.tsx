import { useKept } from '../../parts/kept.js';
import { say } from '../../words/say.js';
import { dayAndTime } from '../../words/times.js';
import { KEPT_PLANS, type KeptPlan, nameOfPlan } from './kept-plans.js';

const NONE: readonly KeptPlan[] = [];

export function KeptPlans() {
  const [plans] = useKept<readonly KeptPlan[]>(KEPT_PLANS, NONE);
  return plans.length === 0 ? null : (
    <section aria-labelledby="kept-plans">
      <h2 id="kept-plans">{say('planning.keptTitle')}</h2>
      <ul class="kept-plans">
        {plans.map((kept) => (
          <li key={kept.id}>
            <a href={`/jobs/plan?kept=${kept.id}`}>{nameOfPlan(kept)}</a>{' '}
            <span class="soft">{say('planning.keptOn', { day: dayAndTime(kept.keptAt) })}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
