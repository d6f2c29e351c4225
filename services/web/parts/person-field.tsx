/** "I am …": chosen from the people of the site, or typed. */
import { say } from '../words/say.js';
import { TextField } from './field.js';

interface PersonParts {
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly wrong?: string | undefined;
  /** People of the site. */
  readonly names: readonly string[];
}

export function PersonField({ names, ...parts }: PersonParts) {
  return (
    <TextField
      {...parts}
      label={say('alarm.iAm')}
      hint={say('alarm.iAmHint')}
      required
      autocomplete="name"
      suggestions={names}
    />
  );
}
