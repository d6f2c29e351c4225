/** Beds that have their treatments: which dropped out, and which got another than was given. */
import type { Trial } from '../api/types/trial.js';
import { Group, Tick } from '../parts/field.js';
import { Fold } from '../parts/fold.js';
import type { Wrongs } from '../parts/form.js';
import { say } from '../words/say.js';
import { useBedName } from './bed-names.js';
import { TreatmentOf } from './treatment-of.js';

export interface TypedGiven {
  /** Ids of the beds that are still in it. */
  readonly in: readonly string[];
  readonly treatments: Readonly<Record<string, string>>;
}

export const typedGiven = ({ beds }: Trial): TypedGiven => ({
  in: beds.map(({ bed }) => bed),
  treatments: Object.fromEntries(beds.map(({ bed, treatment }) => [bed, treatment ?? ''])),
});

const stillIn = ({ beds }: Trial, given: TypedGiven): Trial['beds'] =>
  beds.filter(({ bed }) => given.in.includes(bed));

/** As they are sent. */
export const givenBeds = (trial: Trial, given: TypedGiven): object[] =>
  stillIn(trial, given).map(({ bed, block }) => ({
    ...{ bed, ...(block !== null && { block }), treatment: given.treatments[bed] },
  }));

/** Whether a trial whose treatments were drawn would count as given by hand. */
export const isGivenAnew = (trial: Trial, given: TypedGiven): boolean =>
  trial.assigned?.how === 'chance' &&
  stillIn(trial, given).some(({ bed, treatment }) => given.treatments[bed] !== treatment);

interface GivenParts {
  readonly trial: Trial;
  readonly given: TypedGiven;
  readonly change: (given: TypedGiven) => void;
  readonly wrongs: Wrongs;
}

export function GivenFields({ trial, given, change, wrongs }: GivenParts) {
  const nameOf = useBedName();
  const ids = trial.beds.map(({ bed }) => bed);
  const keep = (bed: string, isIn: boolean): void =>
    change({ ...given, in: ids.filter((id) => (id === bed ? isIn : given.in.includes(id))) });
  return (
    <>
      <Group label={say('trialForms.bedsIn')} hint={say('trialForms.bedsInHint')} wrong={wrongs['beds']}>
        {ids.map((bed) => (
          <Tick
            key={bed}
            label={say('trialForms.bedWith', { bed: nameOf(bed), treatment: given.treatments[bed] ?? '' })}
            checked={given.in.includes(bed)}
            onChange={(isIn) => keep(bed, isIn)}
          />
        ))}
      </Group>
      <Fold title={say('trialForms.treatedOtherwise')}>
        <p>{say('trialForms.treatedOtherwiseAbout')}</p>
        {stillIn(trial, given).map(({ bed }, at) => (
          <TreatmentOf
            key={bed}
            bed={nameOf(bed)}
            treatments={trial.treatments}
            value={given.treatments[bed] ?? ''}
            onChange={(treatment) =>
              change({ ...given, treatments: { ...given.treatments, [bed]: treatment } })
            }
            wrong={wrongs[`beds/${at}/treatment`]}
          />
        ))}
      </Fold>
    </>
  );
}
