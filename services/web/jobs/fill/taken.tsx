/** After a filling was sent: what its probes should show, and what to know. */
import { useEffect, useRef } from 'preact/hooks';
import type { Taken } from '../../api/send-or-keep.js';
import type { Filled } from '../../api/types/filling.js';
import { ButtonLink } from '../../parts/button.js';
import { Notice } from '../../parts/notice.js';
import { say } from '../../words/say.js';
import { EnglishList } from '../english-list.js';

export function FillTaken({ bed, taken }: { bed: string; taken: Taken<Filled> }) {
  const place = useRef<HTMLElement>(null);
  useEffect(() => place.current?.focus(), [taken]);
  return (
    <section ref={place} tabIndex={-1} aria-label={say('fill.takenLabel')}>
      {taken.kept ? (
        <Notice kind="done" title={say('parts.keptTitle')}>
          <p>{say('parts.kept')}</p>
        </Notice>
      ) : (
        <Told filled={taken.answer} />
      )}
      <div class="buttons">
        <ButtonLink href={`/beds/${bed}`}>{say('fill.toBed')}</ButtonLink>
        <ButtonLink href={`/jobs/stock/${bed}`} kind="quiet">
          {say('fill.toStock')}
        </ButtonLink>
      </div>
    </section>
  );
}

function Told({ filled: { roots, probes, notes, cautions } }: { filled: Filled }) {
  return (
    <>
      <Notice kind="done" title={say('fill.takenTitle')}>
        <p>{say('fill.taken', { roots })}</p>
        <EnglishList texts={notes} />
      </Notice>
      {probes.length > 0 ? (
        <>
          <h2>{say('fill.shouldShow')}</h2>
          <EnglishList texts={probes.map(({ text }) => text)} />
        </>
      ) : null}
      <Notice kind="caution" title={say('fill.cautions')}>
        <EnglishList texts={cautions} />
      </Notice>
    </>
  );
}
