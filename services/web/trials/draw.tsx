/** Beds come to their treatments: drawn by the service, shown, put in force; or given by hand. */
import { useMay } from '../access/may.js';
import { ask } from '../api/client.js';
import type { Trial } from '../api/types/trial.js';
import { Fold } from '../parts/fold.js';
import { Form } from '../parts/form.js';
import { rememberPerson, usePerson } from '../parts/person.js';
import { PersonField } from '../parts/person-field.js';
import { useSite } from '../parts/site.js';
import { Typed } from '../parts/typed.js';
import { say } from '../words/say.js';
import { wholeTime } from '../words/times.js';
import { useBeds } from './bed-names.js';
import { ByHand } from './by-hand.js';
import { GivenTable } from './given-table.js';
import { useStamp } from './stamp.js';

interface DrawParts {
  readonly trial: Trial;
  readonly path: string;
  /** After the trial was changed. */
  readonly onDone: () => void;
}

export function Drawing({ trial, path, onDone }: DrawParts) {
  const mayCompare = useMay('compare');
  const beds = useBeds();
  const { names } = useSite(beds.answer?.find(({ id }) => id === trial.beds[0]?.bed)?.site);
  const { drawn } = trial;
  return (
    <section aria-labelledby="trial-draw">
      <h2 id="trial-draw">{say('trialForms.drawTitle')}</h2>
      {drawn === null ? (
        <p>{say('trials.notDrawn')}</p>
      ) : (
        <p>
          {say('trialForms.drawn', { seed: String(drawn.seed), when: wholeTime(drawn.at), by: drawn.by })}
        </p>
      )}
      <GivenTable beds={drawn?.beds ?? trial.beds} />
      {mayCompare ? (
        <>
          <p>{say(drawn === null ? 'trialForms.drawAbout' : 'trialForms.otherwise')}</p>
          <ByChance {...{ trial, path, onDone, names }} />
          <Fold title={say('trialForms.byHand')}>
            <ByHand key={trial.version} {...{ trial, onDone, names }} />
          </Fold>
        </>
      ) : null}
    </section>
  );
}

function ByChance({ trial: { drawn }, path, onDone, names }: DrawParts & { names: readonly string[] }) {
  const [by, setBy] = usePerson();
  const stampOf = useStamp();
  const isShown = drawn !== null;
  const send = async (): Promise<void> => {
    const typed = new Typed();
    const body = { by: typed.text('by', by), ...(isShown && { seed: drawn.seed }) };
    typed.done();
    rememberPerson(by);
    const to = `${path}/${isShown ? 'assignment' : 'draw'}`;
    await ask<Trial>(to, { method: 'POST', body: { ...body, ...stampOf({ body, to }) } });
    onDone();
  };
  return (
    <Form
      label={say('trialForms.drawTitle')}
      send={say(isShown ? 'trialForms.put' : 'trialForms.draw')}
      onSend={send}
    >
      {(wrongs) => <PersonField names={names} value={by} onChange={setBy} wrong={wrongs['by']} />}
    </Form>
  );
}
