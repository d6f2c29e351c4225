/** All trials as they stand. */
import { useMay } from '../access/may.js';
import { useSeen } from '../api/seen.js';
import type { Trial } from '../api/types/trial.js';
import { ButtonLink } from '../parts/button.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { say } from '../words/say.js';
import { dayOf } from '../words/times.js';

export default function TrialsPage() {
  const trials = useSeen<readonly Trial[]>('/api/trials', { live: ['beds'] });
  const mayCompare = useMay('compare');
  return (
    <>
      <Title>{say('trials.title')}</Title>
      <p>{say('trials.about')}</p>
      <div class="buttons">
        {mayCompare ? <ButtonLink href="/jobs/trial">{say('trialForms.newTitle')}</ButtonLink> : null}
        <ButtonLink kind="quiet" href="/jobs/trial-size">
          {say('trialForms.sizeTitle')}
        </ButtonLink>
      </div>
      <Shown of={trials}>
        {(all) =>
          all.length === 0 ? (
            <p>{say('trials.none')}</p>
          ) : (
            all.map((one) => <Card key={one.trial} trial={one} />)
          )
        }
      </Shown>
    </>
  );
}

function Card({ trial }: { trial: Trial }) {
  return (
    <article class="card" aria-labelledby={`trial-${trial.trial}`}>
      <h2 id={`trial-${trial.trial}`}>
        <a href={`/trials/${trial.trial}`}>{trial.name}</a>
      </h2>
      <p>{say('trials.bedsOf', { beds: trial.beds.length, treatments: trial.treatments.join(', ') })}</p>
      <p class="soft">{spanOf(trial)}</p>
      {trial.assigned === null ? <p>{say('trials.notDrawn')}</p> : null}
    </article>
  );
}

export const spanOf = ({ from, to }: Trial): string =>
  to === null
    ? say('trials.fromOn', { from: dayOf(from) })
    : say('trials.fromTo', { from: dayOf(from), to: dayOf(to) });
