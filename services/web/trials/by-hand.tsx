import { useState } from 'preact/hooks';
import type { Trial } from '../api/types/trial.js';
import { Form } from '../parts/form.js';
import { rememberPerson, usePerson } from '../parts/person.js';
import { Typed } from '../parts/typed.js';
import { say } from '../words/say.js';
import { useBedName } from './bed-names.js';
import { sendTrial, standing } from './correction.js';
import { useStamp } from './stamp.js';
import { TreatmentOf } from './treatment-of.js';
import { WhyAndWho } from './why-and-who.js';

interface ByHandParts {
  readonly trial: Trial;
  readonly onDone: () => void;
  /** People of the site. */
  readonly names: readonly string[];
}

/** A treatment chosen for each bed, and why chance did not choose. */
export function ByHand({ trial, onDone, names }: ByHandParts) {
  const nameOf = useBedName();
  const [given, setGiven] = useState<Readonly<Record<string, string>>>({});
  const [reason, setReason] = useState('');
  const [by, setBy] = usePerson();
  const stampOf = useStamp();
  const send = async (): Promise<void> => {
    const typed = new Typed();
    const beds = trial.beds.map(({ bed, block }, at) => {
      const treatment = given[bed] ?? '';
      if (treatment === '') typed.wrong(`beds/${at}/treatment`, say('trialForms.chooseOne'));
      return { bed, ...(block !== null && { block }), treatment };
    });
    const said = { reason: typed.text('reason', reason), by: typed.text('by', by) };
    typed.done();
    rememberPerson(by);
    await sendTrial({ ...standing(trial), beds, ...said }, stampOf);
    onDone();
  };
  return (
    <Form label={say('trialForms.byHand')} send={say('trialForms.give')} onSend={send}>
      {(wrongs) => (
        <>
          <p>{say('trialForms.byHandAbout')}</p>
          {trial.beds.map(({ bed }, at) => (
            <TreatmentOf
              key={bed}
              bed={nameOf(bed)}
              treatments={trial.treatments}
              value={given[bed] ?? ''}
              onChange={(treatment) => setGiven({ ...given, [bed]: treatment })}
              wrong={wrongs[`beds/${at}/treatment`]}
            />
          ))}
          <WhyAndWho {...{ reason, names, by, wrongs }} onReason={setReason} onBy={setBy} />
        </>
      )}
    </Form>
  );
}
