/** A trial that is written down: what is asked, treatments, beds, and what counts. */
import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { ask } from '../api/client.js';
import { useSeen } from '../api/seen.js';
import type { Trial } from '../api/types/trial.js';
import { Button } from '../parts/button.js';
import { Form } from '../parts/form.js';
import { useKept } from '../parts/kept.js';
import { rememberPerson, usePerson } from '../parts/person.js';
import { PersonField } from '../parts/person-field.js';
import { Question } from '../parts/question.js';
import { Shown } from '../parts/shown.js';
import { useSite } from '../parts/site.js';
import { timeNow } from '../parts/time-field.js';
import { Title } from '../parts/title.js';
import { Typed } from '../parts/typed.js';
import { Back } from '../settings/back.js';
import { say } from '../words/say.js';
import { BedFields } from './bed-fields.js';
import { type BedToTry, useBeds } from './bed-names.js';
import { useStamp } from './stamp.js';
import { TreatmentFields } from './treatment-fields.js';
import { MeasureFields, NameFields, WhenFields } from './trial-fields.js';
import { EMPTY_TRIAL, type TypedTrial, trialBody } from './typed-trial.js';
import './trials.css';

const KEPT = 'draft.trial';

export default function NewTrialPage() {
  const beds = useBeds();
  const trials = useSeen<readonly Trial[]>('/api/trials');
  return (
    <>
      <Back to="/trials" text={say('trialForms.toTrials')} />
      <Title>{say('trialForms.newTitle')}</Title>
      <p>{say('trialForms.newAbout')}</p>
      <Shown of={beds}>
        {(known) => <Shown of={trials}>{(others) => <NewTrial beds={known} others={others} />}</Shown>}
      </Shown>
    </>
  );
}

interface NewParts {
  readonly beds: readonly BedToTry[];
  readonly others: readonly Trial[];
}

function NewTrial({ beds, others }: NewParts) {
  const { route } = useLocation();
  const [kept, setKept] = useKept<TypedTrial>(KEPT, EMPTY_TRIAL);
  const trial = kept.from === '' ? { ...kept, from: timeNow() } : kept;
  const [by, setBy] = usePerson();
  const { names } = useSite(beds[0]?.site);
  const stampOf = useStamp();
  const [isSure, setSure] = useState(true);
  const change = (part: Partial<TypedTrial>): void => setKept({ ...trial, ...part });
  const send = async (): Promise<void> => {
    const typed = new Typed();
    const body = {
      ...trialBody(
        typed,
        trial,
        others.map((other) => other.trial),
      ),
      by: typed.text('by', by),
    };
    typed.done();
    rememberPerson(by);
    const made = await ask<Trial>('/api/trials', { method: 'POST', body: { ...body, ...stampOf(body) } });
    setKept(undefined);
    route(`/trials/${made.trial}`);
  };
  return (
    <>
      <Form
        label={say('trialForms.newTitle')}
        send={say('trialForms.write')}
        onSend={send}
        beside={
          <Button kind="quiet" onPress={() => setSure(false)}>
            {say('trialForms.startOver')}
          </Button>
        }
      >
        {(wrongs) => {
          const parts = { trial, change, wrongs };
          return (
            <>
              <NameFields {...parts} isNew />
              <TreatmentFields {...parts} />
              <BedFields {...parts} beds={beds} others={others} />
              <MeasureFields {...parts} />
              <WhenFields {...parts} />
              <PersonField names={names} value={by} onChange={setBy} wrong={wrongs['by']} />
            </>
          );
        }}
      </Form>
      {isSure ? null : (
        <Question
          text={say('trialForms.sureStartOver')}
          yes={say('trialForms.startOver')}
          no={say('parts.leaveIt')}
          onYes={() => {
            setKept(undefined);
            setSure(true);
          }}
          onNo={() => setSure(true)}
        />
      )}
    </>
  );
}
