import { SelectField } from '../parts/field.js';
import { say } from '../words/say.js';

interface TreatmentOfParts {
  /** Its name. */
  readonly bed: string;
  readonly treatments: readonly string[];
  /** Empty where none is chosen yet. */
  readonly value: string;
  readonly onChange: (treatment: string) => void;
  readonly wrong?: string | undefined;
}

export function TreatmentOf({ bed, treatments, value, ...rest }: TreatmentOfParts) {
  const options = [...(value === '' ? [''] : []), ...treatments];
  return (
    <SelectField
      {...rest}
      label={say('trialForms.treatmentOf', { bed })}
      value={value}
      options={options.map((treatment) => ({ value: treatment, label: treatment }))}
    />
  );
}
