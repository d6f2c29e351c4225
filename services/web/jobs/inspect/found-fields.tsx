/** What was found: by what was counted, felt and smelled, and by ticks beside it. */
import type { Finding } from '../../api/types/inspection.js';
import { Group, Tick } from '../../parts/field.js';
import { say } from '../../words/say.js';
import type { FieldsParts } from './look-fields.js';
import { foundBy, foundOf } from './look-typed.js';

const WORDS = [
  ['rot', 'inspect.foundRot'],
  ['damp', 'inspect.foundDamp'],
  ['sprouts', 'inspect.foundSprouts'],
  ['weevils', 'inspect.foundWeevils'],
] as const;

export function Found({ look, onChange, wrongs }: FieldsParts) {
  const found = foundOf(look);
  const follows = foundBy(look);
  const tick = (finding: Finding, checked: boolean): void => {
    const others = look.ticked.filter(
      (one) => one !== finding && (one === 'nothing') === (finding === 'nothing'),
    );
    onChange({ ticked: checked ? [...others, finding] : others });
  };
  const isNothing = !found.some((finding) => finding !== 'nothing');
  return (
    <section class="look-part">
      <Group label={say('inspect.found')} hint={say('inspect.foundHint')} wrong={wrongs['found']}>
        {WORDS.map(([finding, words]) => (
          <Tick
            key={finding}
            label={say(words)}
            checked={found.includes(finding)}
            onChange={(checked) =>
              // What follows from the counts stays ticked.
              follows.includes(finding) ? onChange({}) : tick(finding, checked)
            }
          />
        ))}
        {isNothing ? (
          <Tick
            label={say('inspect.confirmNothing')}
            checked={found.includes('nothing')}
            onChange={(checked) => tick('nothing', checked)}
          />
        ) : null}
      </Group>
    </section>
  );
}
