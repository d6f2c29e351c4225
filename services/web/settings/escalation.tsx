/** Whom an alarm is passed on to, one after the other, while nobody says that they have seen it. */
import type { EscalationStep, SiteDescription } from '../api/types/site.js';
import { Button } from '../parts/button.js';
import { NumberField, SelectField } from '../parts/field.js';
import type { Wrongs } from '../parts/form.js';
import { typedNumber } from '../parts/typed-number.js';
import { say } from '../words/say.js';

/** A step as it is typed. */
export interface TypedStep {
  readonly key: string;
  readonly to: string;
  readonly after: string;
  made(): EscalationStep;
}

let count = 0;

function typedStep(to: string, after: string, key = `step-${++count}`): TypedStep {
  return { key, to, after, made: () => ({ to, after_min: typedNumber(after) ?? Number.NaN }) };
}

export const typedSteps = (steps: readonly EscalationStep[] | undefined): readonly TypedStep[] =>
  (steps ?? []).map(({ to, after_min }) => typedStep(to, String(after_min)));

interface Option {
  readonly value: string;
  readonly label: string;
}

/** People and groups of a site, by the names that people know. */
export const whoCanBeTold = ({ people, groups }: SiteDescription): readonly Option[] => [
  ...people.map(({ id, name }) => ({ value: id, label: name })),
  ...groups.map(({ id, name }) => ({ value: id, label: say('settings.groupNamed', { name }) })),
];

interface EscalationParts {
  readonly hint: string;
  readonly steps: readonly TypedStep[];
  readonly onChange: (steps: readonly TypedStep[]) => void;
  readonly options: readonly Option[];
  readonly wrongs: Wrongs;
  /** Where it stands in what is sent: `bed/escalation`. */
  readonly place: string;
}

/** Minutes until the first step that is added. Judgement. */
const FIRST_min = '60';

export function EscalationFields({ hint, steps, onChange, options, wrongs, place }: EscalationParts) {
  const change = (key: string, to: string, after: string): void =>
    onChange(steps.map((step) => (step.key === key ? typedStep(to, after, key) : step)));
  const [first] = options;
  return (
    <fieldset class="part">
      <legend>{say('settings.escalation')}</legend>
      <p class="soft">{hint}</p>
      {steps.map(({ key, to, after }, index) => (
        <div key={key}>
          <SelectField
            label={say('settings.escalationTo', { number: index + 1 })}
            value={to}
            onChange={(chosen) => change(key, chosen, after)}
            wrong={wrongs[`${place}/${index}/to`]}
            options={options}
          />
          <NumberField
            label={say('settings.escalationAfter', { number: index + 1 })}
            hint={say('settings.escalationBounds')}
            value={after}
            onChange={(typed) => change(key, to, typed)}
            wrong={wrongs[`${place}/${index}/after_min`]}
            unit={say('settings.minutes')}
            whole
          />
          <Button kind="quiet" onPress={() => onChange(steps.filter((step) => step.key !== key))}>
            {say('settings.escalationOut', { number: index + 1 })}
          </Button>
        </div>
      ))}
      {first ? (
        <div class="buttons">
          <Button kind="quiet" onPress={() => onChange([...steps, typedStep(first.value, FIRST_min)])}>
            {say('settings.escalationAdd')}
          </Button>
        </div>
      ) : (
        <p>{say('settings.nobodyYet')}</p>
      )}
    </fieldset>
  );
}
