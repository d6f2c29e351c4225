/** Whether the bed may be filled, before it is. */
import { useSeen } from '../../api/seen.js';
import type { FillReadiness } from '../../api/types/filling.js';
import { ButtonLink } from '../../parts/button.js';
import { English, Notice } from '../../parts/notice.js';
import { Shown } from '../../parts/shown.js';
import { When } from '../../parts/when.js';
import { say } from '../../words/say.js';

export function ReadyLine({ bed }: { bed: string }) {
  const seen = useSeen<FillReadiness>(`/api/beds/${encodeURIComponent(bed)}/readiness`, {
    live: ['readings', 'beds'],
    bed,
  });
  return (
    <section>
      <h2>{say('fill.before')}</h2>
      <Shown of={seen}>{(readiness) => <Standing bed={bed} readiness={readiness} />}</Shown>
    </section>
  );
}

function Standing({ bed, readiness }: { bed: string; readiness: FillReadiness }) {
  const { verdict, sentence, record } = readiness;
  const overridden = record?.overrides.at(-1);
  const isReady = verdict === 'ready';
  return (
    <Notice kind={isReady ? 'done' : 'caution'} title={titleOf(verdict)}>
      <p>
        <English>{sentence}</English>
      </p>
      {!isReady && overridden ? (
        <p>
          {say('fill.overridden', { by: overridden.by, reason: overridden.reason })}{' '}
          <When at={overridden.at} />
        </p>
      ) : null}
      {isReady ? null : (
        <>
          {overridden ? null : <p>{say('fill.notReadyHint')}</p>}
          <p>
            <ButtonLink href={`/jobs/ready/${bed}`} kind="quiet">
              {say('fill.toReadiness')}
            </ButtonLink>
          </p>
        </>
      )}
    </Notice>
  );
}

const titleOf = (verdict: FillReadiness['verdict']): string =>
  ({
    ready: say('fill.isReady'),
    'not ready': say('fill.isNotReady'),
    unknown: say('fill.isUnknown'),
  })[verdict];
