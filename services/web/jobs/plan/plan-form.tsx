/** The question that a plan answers. */
import { Button } from '../../parts/button.js';
import { Choice, Group, NumberField, Tick } from '../../parts/field.js';
import { Fold } from '../../parts/fold.js';
import { Form, type Wrongs } from '../../parts/form.js';
import { say } from '../../words/say.js';
import { MEASURES, type TypedMeasures } from './own-measures.js';
import { EMPTY_STEP, type TypedPlan, type TypedStep } from './typed-plan.js';

interface PlanFormParts {
  readonly typed: TypedPlan;
  readonly change: (typed: TypedPlan) => void;
  readonly own: TypedMeasures;
  readonly changeOwn: (own: TypedMeasures) => void;
  readonly onSend: () => Promise<unknown>;
}

interface Part {
  readonly typed: TypedPlan;
  readonly set: (part: Partial<TypedPlan>) => void;
  readonly wrongs: Wrongs;
}

export function PlanForm({ typed, change, own, changeOwn, onSend }: PlanFormParts) {
  const set = (part: Partial<TypedPlan>): void => change({ ...typed, ...part });
  return (
    <Form label={say('planning.form')} send={say('planning.send')} onSend={onSend}>
      {(wrongs) => (
        <>
          <Choice
            label={say('planning.kind')}
            value={typed.kind}
            onChange={(kind) => set({ kind: kind as TypedPlan['kind'] })}
            options={[
              { value: 'stepped-pit', label: say('planning.pit') },
              { value: 'box', label: say('planning.box') },
            ]}
          />
          <Choice
            label={say('planning.from')}
            value={typed.from}
            onChange={(from) => set({ from: from as TypedPlan['from'] })}
            options={[
              { value: 'roots', label: say('planning.fromRoots') },
              { value: 'mass', label: say('planning.fromMass') },
              { value: 'space', label: say('planning.fromSpace') },
            ]}
          />
          <Known typed={typed} set={set} wrongs={wrongs} />
          <Own own={own} change={changeOwn} wrongs={wrongs} />
          <More typed={typed} set={set} wrongs={wrongs} />
          <Tick
            label={say('planning.probes')}
            checked={typed.probes}
            onChange={(probes) => set({ probes })}
          />
        </>
      )}
    </Form>
  );
}

function Known({ typed, set, wrongs }: Part) {
  if (typed.from === 'mass')
    return (
      <NumberField
        label={say('planning.mass')}
        unit={say('planning.kg')}
        value={typed.mass}
        onChange={(mass) => set({ mass })}
        wrong={wrongs['roots_kg']}
        required
      />
    );
  const isSpace = typed.from === 'space';
  return (
    <>
      {isSpace ? <Steps typed={typed} set={set} wrongs={wrongs} /> : null}
      <NumberField
        label={isSpace ? say('planning.rootsWanted') : say('planning.roots')}
        hint={isSpace ? say('planning.rootsWantedHint') : undefined}
        whole
        value={typed.roots}
        onChange={(roots) => set({ roots })}
        wrong={wrongs['roots']}
        required={!isSpace}
      />
    </>
  );
}

/** Of a pit; a site description takes no more. */
const MOST_STEPS = 10;

function Steps({ typed, set, wrongs }: Part) {
  const isBox = typed.kind === 'box';
  const steps = isBox ? typed.steps.slice(0, 1) : typed.steps;
  const put = (index: number, step: TypedStep): void =>
    set({ steps: typed.steps.map((own, at) => (at === index ? step : own)) });
  return (
    <>
      {steps.map((step, index) => (
        <StepFields
          key={index}
          label={isBox ? say('planning.boxSides') : say('planning.step', { number: index + 1 })}
          step={step}
          change={(next) => put(index, next)}
          wrongOf={(side) => wrongs[`steps/${index}/${side}`]}
        />
      ))}
      {isBox ? null : (
        <div class="buttons">
          <Button
            kind="quiet"
            disabled={steps.length >= MOST_STEPS}
            onPress={() => set({ steps: [...steps, EMPTY_STEP] })}
          >
            {say('planning.addStep')}
          </Button>
          <Button kind="quiet" disabled={steps.length < 2} onPress={() => set({ steps: steps.slice(0, -1) })}>
            {say('planning.dropStep')}
          </Button>
        </div>
      )}
    </>
  );
}

interface StepParts {
  readonly label: string;
  readonly step: TypedStep;
  readonly change: (step: TypedStep) => void;
  readonly wrongOf: (side: keyof TypedStep) => string | undefined;
}

function StepFields({ label, step, change, wrongOf }: StepParts) {
  return (
    <Group label={label}>
      <div class="side-by-side">
        {(['length', 'width', 'height'] as const).map((side) => (
          <NumberField
            key={side}
            label={say(`planning.${side}`)}
            unit={say('planning.cm')}
            value={step[side]}
            onChange={(text) => change({ ...step, [side]: text })}
            wrong={wrongOf(side)}
            required
          />
        ))}
      </div>
    </Group>
  );
}

interface OwnParts {
  readonly own: TypedMeasures;
  readonly change: (own: TypedMeasures) => void;
  readonly wrongs: Wrongs;
}

function Own({ own, change, wrongs }: OwnParts) {
  return (
    <Fold title={say('planning.own')} open={has(wrongs, /^measures/)}>
      <p>{say('planning.ownHint')}</p>
      {MEASURES.map((name) => (
        <NumberField
          key={name}
          label={say(`planning.${name}`)}
          unit={say('planning.cm')}
          value={own[name]}
          onChange={(text) => change({ ...own, [name]: text })}
          wrong={wrongs[`measures/${name}_cm`]}
        />
      ))}
    </Fold>
  );
}

/** Opens what holds a field that is not as expected; else it stays as the reader left it. */
const has = (wrongs: Wrongs, names: RegExp): true | undefined =>
  Object.keys(wrongs).some((name) => names.test(name)) || undefined;

function More({ typed, set, wrongs }: Part) {
  return (
    <Fold title={say('planning.more')} open={has(wrongs, /^(root_kg|bucket_L|ground_C)/)}>
      <NumberField
        label={say('planning.rootMass')}
        hint={say('planning.rootMassHint')}
        unit={say('planning.kg')}
        value={typed.root_kg}
        onChange={(root_kg) => set({ root_kg })}
        wrong={wrongs['root_kg']}
      />
      <NumberField
        label={say('planning.bucket')}
        hint={say('planning.bucketHint')}
        unit={say('planning.litre')}
        value={typed.bucket_L}
        onChange={(bucket_L) => set({ bucket_L })}
        wrong={wrongs['bucket_L']}
      />
      <NumberField
        label={say('planning.ground')}
        hint={say('planning.groundHint')}
        unit={say('planning.celsius')}
        value={typed.ground_C}
        onChange={(ground_C) => set({ ground_C })}
        wrong={wrongs['ground_C']}
      />
    </Fold>
  );
}
