/** A role, and the beds of one that is for named beds. */
import type { Role } from '../../../core/model/roles.js';
import { roleOptions } from '../../access/role-words.js';
import { useSeen } from '../../api/seen.js';
import { Group, SelectField, Tick } from '../../parts/field.js';
import type { Wrongs } from '../../parts/form.js';
import { say } from '../../words/say.js';

export interface GivenRole {
  readonly role: string;
  readonly beds: readonly string[];
}

/** As the service wants it: other roles are for all beds. */
export const asGiven = ({ role, beds }: GivenRole): GivenRole => ({
  ...{ role, beds: role === 'keeper' ? beds : [] },
});

interface FieldsParts {
  readonly given: GivenRole;
  readonly onChange: (given: GivenRole) => void;
  readonly roles: readonly Role[];
  readonly wrongs: Wrongs;
}

export function RoleFields({ given, onChange, roles, wrongs }: FieldsParts) {
  return (
    <>
      <SelectField
        label={say('access.role')}
        value={given.role}
        onChange={(role) => onChange({ ...given, role })}
        wrong={wrongs['role']}
        options={roleOptions(roles)}
      />
      {given.role === 'keeper' ? <BedTicks {...{ given, onChange }} wrong={wrongs['beds']} /> : null}
    </>
  );
}

interface Bed {
  readonly id: string;
  readonly name: string;
}

interface TicksParts extends Pick<FieldsParts, 'given' | 'onChange'> {
  readonly wrong: string | undefined;
}

function BedTicks({ given, onChange, wrong }: TicksParts) {
  const beds = useBeds();
  // One that is described no more can be taken away all the same.
  const gone = given.beds.filter((id) => !beds.some((bed) => bed.id === id));
  return (
    <Group label={say('access.beds')} wrong={wrong} required>
      {[...beds, ...gone.map((id) => ({ id, name: id }))].map(({ id, name }) => (
        <Tick
          key={id}
          label={name}
          checked={given.beds.includes(id)}
          onChange={(checked) =>
            onChange({
              ...given,
              beds: checked ? [...given.beds, id] : given.beds.filter((one) => one !== id),
            })
          }
        />
      ))}
    </Group>
  );
}

export const useBeds = (): readonly Bed[] =>
  useSeen<readonly Bed[]>('/api/beds', { live: ['site'] }).answer ?? [];
