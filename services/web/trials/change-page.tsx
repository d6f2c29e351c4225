/** A trial that is corrected: what it was stays, with who changed it and why. */
import { useState } from 'preact/hooks';
import { useLocation, useRoute } from 'preact-iso';
import { ask, Refusal } from '../api/client.js';
import { useSeen } from '../api/seen.js';
import type { Trial } from '../api/types/trial.js';
import { Form } from '../parts/form.js';
import { rememberPerson, usePerson } from '../parts/person.js';
import { Shown } from '../parts/shown.js';
import { useSite } from '../parts/site.js';
import { Stale } from '../parts/stale.js';
import { Title } from '../parts/title.js';
import { Typed } from '../parts/typed.js';
import { Back } from '../settings/back.js';
import { useEntry } from '../settings/entry.js';
import { say } from '../words/say.js';
import { BedFields } from './bed-fields.js';
import { type BedToTry, useBeds } from './bed-names.js';
import { sendTrial } from './correction.js';
import { GivenFields, givenBeds, isGivenAnew, type TypedGiven, typedGiven } from './given-fields.js';
import { useStamp } from './stamp.js';
import { TreatmentFields } from './treatment-fields.js';
import { MeasureFields, NameFields, WhenFields } from './trial-fields.js';
import { type TypedTrial, trialBody, typedFrom } from './typed-trial.js';
import { WhyAndWho } from './why-and-who.js';
import './trials.css';

export default function ChangePage() {
  const { params } = useRoute();
  const id = params['trial'] ?? '';
  const beds = useBeds();
  const trials = useSeen<readonly Trial[]>('/api/trials');
  const entry = useEntry<Trial>(`/api/trials/${encodeURIComponent(id)}`);
  return (
    <>
      <Back to={`/trials/${id}`} text={say('trialForms.toTrial')} />
      <Title>{say('trialForms.change')}</Title>
      <p>{say('trialForms.changeAbout')}</p>
      <Shown of={beds}>
        {(known) => (
          <Shown of={trials}>
            {(all) => (
              <Shown of={entry} thing={{ kind: 'trial', id }}>
                {({ content }) => (
                  <ChangeForm
                    key={content.version}
                    trial={content}
                    beds={known}
                    others={all.filter((other) => other.trial !== id)}
                    onReadAgain={entry.again}
                  />
                )}
              </Shown>
            )}
          </Shown>
        )}
      </Shown>
    </>
  );
}

interface ChangeParts {
  readonly trial: Trial;
  readonly beds: readonly BedToTry[];
  readonly others: readonly Trial[];
  /** Reads anew what stands by now; what was typed is given up. */
  readonly onReadAgain: () => void;
}

function ChangeForm({ trial: stands, beds, others, onReadAgain }: ChangeParts) {
  const { route } = useLocation();
  const [trial, setTrial] = useState<TypedTrial>(() => typedFrom(stands));
  const [given, setGiven] = useState<TypedGiven>(() => typedGiven(stands));
  const [reason, setReason] = useState('');
  const [by, setBy] = usePerson();
  const { names } = useSite(beds.find(({ id }) => id === stands.beds[0]?.bed)?.site);
  const [isStale, setStale] = useState(false);
  const stampOf = useStamp();
  const isAssigned = stands.assigned !== null;
  const send = async (): Promise<void> => {
    const typed = new Typed();
    const whole = isAssigned ? { ...trial, beds: given.in } : trial;
    const body = {
      ...{ ...trialBody(typed, whole, []), supersedes: stands.version },
      ...(isAssigned && { beds: givenBeds(stands, given) }),
      ...{ reason: typed.text('reason', reason), by: typed.text('by', by) },
    };
    typed.done();
    rememberPerson(by);
    try {
      await sendTrial(body, stampOf);
    } catch (error) {
      setStale(await isOlder(stands, error));
      throw error;
    }
    route(`/trials/${stands.trial}`);
  };
  const change = (part: Partial<TypedTrial>): void => setTrial({ ...trial, ...part });
  return (
    <>
      <Form
        label={say('trialForms.change')}
        send={say('trialForms.save')}
        sure={isGivenAnew(stands, given) ? say('trialForms.sureByHand') : undefined}
        onSend={send}
      >
        {(wrongs) => {
          const parts = { trial, change, wrongs };
          return (
            <>
              <NameFields {...parts} isNew={false} />
              {isAssigned ? <p>{say('trialForms.fixed')}</p> : null}
              <TreatmentFields {...parts} areFixed={isAssigned} />
              {isAssigned ? (
                <GivenFields trial={stands} given={given} change={setGiven} wrongs={wrongs} />
              ) : (
                <BedFields {...parts} beds={beds} others={others} />
              )}
              <MeasureFields {...parts} hint={isAssigned ? say('trialForms.measureLate') : undefined} />
              <WhenFields {...parts} />
              <WhyAndWho {...{ reason, names, by, wrongs }} onReason={setReason} onBy={setBy} />
            </>
          );
        }}
      </Form>
      {isStale ? <Stale onReadAgain={onReadAgain} /> : null}
    </>
  );
}

/** Whether something was refused because somebody else was first. */
async function isOlder({ trial, version }: Trial, error: unknown): Promise<boolean> {
  if (!(error instanceof Refusal && error.status === 409)) return false;
  const now = await ask<Trial>(`/api/trials/${encodeURIComponent(trial)}`).catch(() => undefined);
  return now !== undefined && now.version !== version;
}
