/** The points of the list: what is missing first. */

import type { Met, ReadinessItem, ReadinessNow } from '../../api/types/readiness.js';
import { Fold } from '../../parts/fold.js';
import { Told } from '../../parts/told.js';
import { say } from '../../words/say.js';
import { Limits, MetMark } from '../verdict.js';
import { type Answering, HandAnswer, InSand } from './hand-answer.js';

const GROUPS = [
  ['not met', 'groupNotMet'],
  ['unknown', 'groupUnknown'],
  ['met', 'groupMet'],
] as const satisfies readonly (readonly [Met, string])[];

interface PointsParts {
  readonly now: ReadinessNow;
  readonly probes: readonly string[];
  readonly of: Answering;
}

export function Points({ now, probes, of }: PointsParts) {
  const isOpenPit = now.items.some(({ id }) => id === 'pit-dry');
  return (
    <>
      {GROUPS.map(([state, word]) => {
        const items = now.items.filter((item) => item.state === state);
        return items.length === 0 ? null : (
          <section key={state} aria-labelledby={`ready-${word}`}>
            <h2 id={`ready-${word}`}>{say(`ready.${word}`)}</h2>
            <div class="points">
              {items.map((item) => (
                <Point key={item.id} item={item} of={of} />
              ))}
            </div>
          </section>
        );
      })}
      {isOpenPit && probes.length > 0 ? <InSand {...of} probes={probes} /> : null}
    </>
  );
}

function Point({ item, of }: { item: ReadinessItem; of: Answering }) {
  const { id, question, state, measure, limit, limits, reason, source, answeredBy } = item;
  return (
    <article class="card point" aria-labelledby={`point-${id}`}>
      <h3 id={`point-${id}`}>
        <Told>{question}</Told>
      </h3>
      <p>
        <MetMark state={state} /> <Told>{measure}</Told>{' '}
        <span class="soft">({say('ready.by', { who: answeredBy })})</span>
      </p>
      {answeredBy === 'hand' ? <HandAnswer {...of} item={item} /> : null}
      <Fold title={say('ready.about')}>
        <dl lang="en">
          <dt>{say('ready.limit')}</dt>
          <dd>{limit}</dd>
          <dt>{say('ready.reason')}</dt>
          <dd>{reason}</dd>
          <dt>{say('ready.source')}</dt>
          <dd>{limits.length === 0 ? source : <Limits limits={limits} />}</dd>
        </dl>
      </Fold>
    </article>
  );
}
