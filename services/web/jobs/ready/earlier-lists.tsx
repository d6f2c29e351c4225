import type { SeenAnswer } from '../../api/seen.js';
import type { ReadinessRecord } from '../../api/types/readiness.js';
import { Fold } from '../../parts/fold.js';
import { Shown } from '../../parts/shown.js';
import { Told } from '../../parts/told.js';
import { say } from '../../words/say.js';
import { dayAndTime } from '../../words/times.js';
import { MetMark } from '../verdict.js';
import { Overrides } from './override.js';

/** Lists that were kept, the newest first, each as it stood. */
export function EarlierLists({ of }: { of: SeenAnswer<readonly ReadinessRecord[]> }) {
  return (
    <section aria-labelledby="ready-earlier">
      <h2 id="ready-earlier">{say('ready.earlier')}</h2>
      <Shown of={of}>
        {(records) =>
          records.length === 0 ? (
            <p>{say('ready.noEarlier')}</p>
          ) : (
            records.map((record) => <Earlier key={record.id} record={record} />)
          )
        }
      </Shown>
    </section>
  );
}

function Earlier({ record }: { record: ReadinessRecord }) {
  const { at, by, verdict, items } = record;
  return (
    <Fold title={say('ready.recordBy', { day: dayAndTime(at), by, verdict })}>
      <Overrides record={record} />
      <ul>
        {items.map(({ id, question, state, measure }) => (
          <li key={id}>
            <Told>{question}</Told> <MetMark state={state} /> <Told>{measure}</Told>
          </li>
        ))}
      </ul>
    </Fold>
  );
}
