/** Which beds take part, and in which blocks where there are blocks. */
import type { Trial } from '../api/types/trial.js';
import { Choice, Group, TextField, Tick } from '../parts/field.js';
import { typedTime } from '../parts/time-field.js';
import { say } from '../words/say.js';
import type { BedToTry } from './bed-names.js';
import type { FieldsParts } from './trial-fields.js';
import { sharedOut, type TypedTrial } from './typed-trial.js';

interface BedParts extends FieldsParts {
  readonly beds: readonly BedToTry[];
  /** All others. */
  readonly others: readonly Trial[];
}

export function BedFields({ trial, change, wrongs, beds, others }: BedParts) {
  const choose = (id: string, isIn: boolean): void =>
    change({
      beds: beds.map((bed) => bed.id).filter((bed) => (bed === id ? isIn : trial.beds.includes(bed))),
    });
  return (
    <>
      <Choice
        label={say('trialForms.design')}
        value={trial.design}
        onChange={(design) => change({ design: design as TypedTrial['design'] })}
        options={[
          { value: 'complete', label: say('trialForms.complete') },
          { value: 'blocks', label: say('trialForms.blocks') },
        ]}
      />
      <Group label={say('trialForms.beds')} hint={say('trialForms.bedsHint')} wrong={wrongs['beds']} required>
        {beds.map(({ id, name }) => (
          <div class="trial-bed" key={id}>
            <Tick
              label={labelOf(
                name,
                others.find((other) => hasThen(other, id, trial)),
              )}
              checked={trial.beds.includes(id)}
              onChange={(isIn) => choose(id, isIn)}
            />
            {trial.design === 'blocks' && trial.beds.includes(id) ? (
              <TextField
                label={say('trialForms.blockOf', { bed: name })}
                required
                suggestions={blocksIn(trial)}
                value={trial.blocks[id] ?? ''}
                onChange={(block) => change({ blocks: { ...trial.blocks, [id]: block } })}
                wrong={wrongs[`beds/${trial.beds.indexOf(id)}/block`]}
              />
            ) : null}
          </div>
        ))}
      </Group>
      <div role="status">
        {sharedOut(trial).map((text) => (
          <p key={text}>{text}</p>
        ))}
      </div>
    </>
  );
}

const labelOf = (bed: string, other: Trial | undefined): string =>
  other === undefined ? bed : say('trialForms.bedElsewhere', { bed, trial: other.name });

const blocksIn = ({ blocks, beds }: TypedTrial): string[] => [
  ...new Set(beds.map((bed) => (blocks[bed] ?? '').trim()).filter((block) => block !== '')),
];

/** Whether another trial has the bed while this one would. */
function hasThen(other: Trial, bed: string, { from, to }: TypedTrial): boolean {
  if (!other.beds.some((one) => one.bed === bed)) return false;
  const [begins, ends] = [typedTime(from), typedTime(to)];
  const isBefore = other.to !== null && begins !== undefined && Date.parse(other.to) <= Date.parse(begins);
  return !isBefore && !(ends !== undefined && Date.parse(ends) <= Date.parse(other.from));
}
