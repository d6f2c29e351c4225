/** Fields of a trial that hold whether or not beds have their treatments: its name, what is asked, what counts, and when. */
import { NumberField, SelectField, TextField } from '../parts/field.js';
import type { Wrongs } from '../parts/form.js';
import { say, wordFor } from '../words/say.js';
import { zoneNow } from '../words/times.js';
import { OUTCOMES, shortName, type TypedTrial } from './typed-trial.js';

export interface FieldsParts {
  readonly trial: TypedTrial;
  readonly change: (part: Partial<TypedTrial>) => void;
  readonly wrongs: Wrongs;
}

export function NameFields({ trial, change, wrongs, isNew }: FieldsParts & { isNew: boolean }) {
  return (
    <>
      <TextField
        label={say('trialForms.name')}
        value={trial.name}
        onChange={(name) => change({ name })}
        wrong={wrongs['name']}
        required
      />
      {isNew ? (
        <TextField
          label={say('settings.machineName')}
          hint={say('settings.machineNameHint')}
          value={shortName(trial)}
          onChange={(ownId) => change({ ownId })}
          wrong={wrongs['trial']}
          required
        />
      ) : null}
      <TextField
        label={say('trialForms.question')}
        hint={say('trialForms.questionHint')}
        rows={2}
        value={trial.question}
        onChange={(question) => change({ question })}
        wrong={wrongs['question']}
      />
    </>
  );
}

export function MeasureFields({ trial, change, wrongs, hint }: FieldsParts & { hint?: string | undefined }) {
  return (
    <div class="trial-pair">
      <SelectField
        label={say('trialForms.measure')}
        hint={hint}
        value={trial.kind}
        onChange={(kind) => change({ kind })}
        options={OUTCOMES.map((kind) => ({ value: kind, label: wordFor('outcomes', kind) ?? kind }))}
        wrong={wrongs['outcome/kind']}
      />
      <NumberField
        label={say('trialForms.day')}
        whole
        required
        value={trial.day}
        onChange={(day) => change({ day })}
        wrong={wrongs['outcome/day']}
      />
    </div>
  );
}

export function WhenFields({ trial, change, wrongs }: FieldsParts) {
  const hint = say('parts.timeHint', { zone: zoneNow() });
  return (
    <>
      <div class="trial-pair">
        <TextField
          label={say('trialForms.from')}
          type="datetime-local"
          required
          hint={hint}
          value={trial.from}
          onChange={(from) => change({ from })}
          wrong={wrongs['from']}
        />
        <TextField
          label={say('trialForms.to')}
          type="datetime-local"
          hint={say('trialForms.toHint')}
          value={trial.to}
          onChange={(to) => change({ to })}
          wrong={wrongs['to']}
        />
      </div>
      <TextField
        label={say('trialForms.note')}
        rows={2}
        value={trial.note}
        onChange={(note) => change({ note })}
        wrong={wrongs['note']}
      />
    </>
  );
}
