import { useEffect, useState } from 'preact/hooks';
import type { Plan } from '../../api/types/plan.js';
import { Notice } from '../../parts/notice.js';
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { Length } from './lengths.js';
import type { Planned } from './use-plan.js';

/** Where probes go and what they would find; while places are looked for, that it is so. */
export function ProbesOfPlan({ planned: { plan, placingSince, placingFailed } }: { planned: Planned }) {
  return (
    <section class="card" aria-labelledby="plan-probes">
      <h3 id="plan-probes">{say('planning.probesTitle')}</h3>
      <div role="status">{placingSince === undefined ? null : <p>{say('planning.placing')}</p>}</div>
      {placingSince === undefined ? null : <Placing since={placingSince} />}
      {placingFailed === undefined ? null : (
        <Notice kind="refusal" title={say('planning.probesFailed')}>
          <p>{placingFailed}</p>
        </Notice>
      )}
      {placingSince === undefined && placingFailed === undefined ? <Places plan={plan} /> : null}
    </section>
  );
}

const SECOND_ms = 1000;

function Placing({ since }: { since: number }) {
  const [now, set] = useState(Date.now());
  useEffect(() => {
    const timer = setInterval(() => set(Date.now()), SECOND_ms);
    return () => clearInterval(timer);
  }, []);
  const seconds = Math.max(0, Math.round((now - since) / SECOND_ms));
  return (
    <>
      <progress aria-label={say('planning.probesTitle')} />
      <p class="soft">{say('planning.placingFor', { seconds })}</p>
    </>
  );
}

function Places({ plan: { probes, coverage_share, measures } }: { plan: Plan }) {
  if (probes.length === 0) return <p>{say('planning.probesNone')}</p>;
  return (
    <>
      <p>{say('planning.probesFind', { count: probes.length, share: number(100 * coverage_share) })}</p>
      <ul>
        {probes.map(({ id, x, y, depth }) => (
          <li key={id}>
            <b>{id}</b>: <Length cm={x} measures={measures} words="probeAlong" />,{' '}
            <Length cm={y} measures={measures} words="probeAcross" />,{' '}
            <Length cm={depth} measures={measures} words="probeDeep" />
          </li>
        ))}
      </ul>
      <p class="soft">{say('planning.probesFrom')}</p>
    </>
  );
}
