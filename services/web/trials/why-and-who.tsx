/** Why a trial is changed, and who says so. */
import { TextField } from '../parts/field.js';
import type { Wrongs } from '../parts/form.js';
import { PersonField } from '../parts/person-field.js';
import { say } from '../words/say.js';

interface WhyAndWhoParts {
  readonly reason: string;
  readonly onReason: (reason: string) => void;
  /** People of the site. */
  readonly names: readonly string[];
  readonly by: string;
  readonly onBy: (by: string) => void;
  readonly wrongs: Wrongs;
}

export function WhyAndWho({ reason, onReason, names, by, onBy, wrongs }: WhyAndWhoParts) {
  return (
    <>
      <TextField
        label={say('trialForms.why')}
        required
        rows={2}
        value={reason}
        onChange={onReason}
        wrong={wrongs['reason']}
      />
      <PersonField names={names} value={by} onChange={onBy} wrong={wrongs['by']} />
    </>
  );
}
