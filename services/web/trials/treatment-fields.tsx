import { Button } from '../parts/button.js';
import { Group, TextField } from '../parts/field.js';
import { say } from '../words/say.js';
import type { FieldsParts } from './trial-fields.js';
import { NO_TREATMENT, type TypedTreatment } from './typed-trial.js';

/** As many as the service takes. */
const MOST_TREATMENTS = 20;

/** Treatments with what is done; their names stay where beds have them. */
export function TreatmentFields({
  trial,
  change,
  wrongs,
  areFixed = false,
}: FieldsParts & { areFixed?: boolean }) {
  const { treatments } = trial;
  const put = (at: number, part: Partial<TypedTreatment>): void =>
    change({ treatments: treatments.map((one, index) => (index === at ? { ...one, ...part } : one)) });
  return (
    <>
      {treatments.map(({ name, done }, at) => (
        <Group key={at} label={areFixed ? name : say('trialForms.treatment', { number: at + 1 })}>
          {areFixed ? null : (
            <TextField
              label={say('trialForms.treatmentName')}
              required
              value={name}
              onChange={(text) => put(at, { name: text })}
              wrong={wrongs[`treatments/${at}`]}
            />
          )}
          <TextField
            label={say('trialForms.treatmentDone')}
            hint={at === 0 ? say('trialForms.treatmentDoneHint') : undefined}
            rows={2}
            value={done}
            onChange={(text) => put(at, { done: text })}
            wrong={wrongs[`described/${name.trim()}`]}
          />
          {areFixed || treatments.length === 2 ? null : (
            <Button
              kind="quiet"
              onPress={() => change({ treatments: treatments.filter((_, index) => index !== at) })}
            >
              {say('trialForms.treatmentOut', { number: at + 1 })}
            </Button>
          )}
        </Group>
      ))}
      {areFixed || treatments.length === MOST_TREATMENTS ? null : (
        <div class="buttons">
          <Button kind="quiet" onPress={() => change({ treatments: [...treatments, NO_TREATMENT] })}>
            {say('trialForms.treatmentAdd')}
          </Button>
        </div>
      )}
    </>
  );
}
