/** How many beds find a difference worth having; what so many would find. */

import { useState } from 'preact/hooks';
import { useMay } from '../access/may.js';
import { ask } from '../api/client.js';
import type { TrialSize } from '../api/types/trial.js';
import { ButtonLink } from '../parts/button.js';
import { Choice, NumberField } from '../parts/field.js';
import { Fold } from '../parts/fold.js';
import { Form, type Wrongs } from '../parts/form.js';
import { useKept } from '../parts/kept.js';
import { Title } from '../parts/title.js';
import { Typed } from '../parts/typed.js';
import { Back } from '../settings/back.js';
import { say } from '../words/say.js';
import { Size } from './size.js';
import './trials.css';

const KEPT = 'trial-size';
const EMPTY = {
  ...{ difference: '', sd: '', treatments: '2', design: 'complete', power: '80', alpha: '5', beds: '' },
};
type TypedSize = typeof EMPTY;

const MEASURE = { least: 1e-9, most: 1e9 };

/** @throws NotAsExpected */
function bodyOf({ difference, sd, treatments, design, power, alpha, beds }: TypedSize): object {
  const typed = new Typed();
  const bedsOfEach = typed.maybe('beds', beds, { least: 2, most: 10_000, whole: true });
  const share = typed.number('power', power, { least: 50, most: 99.9 }) / 100;
  const body = {
    ...{ design, difference: typed.number('difference', difference, MEASURE) },
    sd: typed.number('sd', sd, MEASURE),
    treatments: typed.number('treatments', treatments, { least: 2, most: 20, whole: true }),
    alpha: typed.number('alpha', alpha, { least: 0.1, most: 50 }) / 100,
    ...(bedsOfEach === undefined ? { power: share } : { beds: bedsOfEach }),
  };
  typed.done();
  return body;
}

export default function SizePage() {
  const [typed, setTyped] = useKept<TypedSize>(KEPT, EMPTY);
  const [size, setSize] = useState<TrialSize>();
  const mayCompare = useMay('compare');
  const send = async (): Promise<void> => {
    const body = bodyOf(typed);
    setSize(undefined);
    setSize(await ask<TrialSize>('/api/trial-power', { method: 'POST', body }));
  };
  return (
    <>
      <Back to="/trials" text={say('trialForms.toTrials')} />
      <Title>{say('trialForms.sizeTitle')}</Title>
      <p>{say('trialForms.sizeAbout')}</p>
      <Form label={say('trialForms.sizeTitle')} send={say('trialForms.ask')} onSend={send}>
        {(wrongs) => (
          <SizeFields typed={typed} change={(part) => setTyped({ ...typed, ...part })} wrongs={wrongs} />
        )}
      </Form>
      <div role="status">{size === undefined ? null : <Size size={size} />}</div>
      {size !== undefined && mayCompare ? (
        <ButtonLink kind="quiet" href="/jobs/trial">
          {say('trialForms.begin')}
        </ButtonLink>
      ) : null}
    </>
  );
}

interface SizeFieldsParts {
  readonly typed: TypedSize;
  readonly change: (part: Partial<TypedSize>) => void;
  readonly wrongs: Wrongs;
}

function SizeFields({ typed, change, wrongs }: SizeFieldsParts) {
  const field = (key: Exclude<keyof TypedSize, 'design'>) => ({
    ...{ value: typed[key], wrong: wrongs[key] },
    onChange: (text: string) => change({ [key]: text }),
  });
  return (
    <>
      <NumberField
        label={say('trialForms.difference')}
        hint={say('trialForms.differenceHint')}
        required
        {...field('difference')}
      />
      <NumberField
        label={say('trialForms.scatter')}
        hint={say('trialForms.scatterHint')}
        required
        {...field('sd')}
      />
      <NumberField label={say('trialForms.howMany')} whole required {...field('treatments')} />
      <Choice
        label={say('trialForms.design')}
        value={typed.design}
        onChange={(design) => change({ design })}
        options={[
          { value: 'complete', label: say('trialForms.complete') },
          { value: 'blocks', label: say('trialForms.blocks') },
        ]}
      />
      <Fold title={say('trialForms.sizeMore')}>
        <NumberField label={say('trialForms.power')} required {...field('power')} />
        <NumberField label={say('trialForms.alpha')} required {...field('alpha')} />
        <NumberField
          label={say('trialForms.bedsOfEach')}
          hint={say('trialForms.bedsOfEachHint')}
          whole
          {...field('beds')}
        />
      </Fold>
    </>
  );
}
