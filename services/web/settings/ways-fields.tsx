/** The ways by which somebody is reached, the first one first; where one is dead the next is used. */
import { useSeen } from '../api/seen.js';
import type { Way } from '../api/types/settings.js';
import { type Reach, VIAS, type Via } from '../api/types/site.js';
import { Button } from '../parts/button.js';
import { SelectField, TextField } from '../parts/field.js';
import type { Wrongs } from '../parts/form.js';
import { say } from '../words/say.js';

export interface TypedWay {
  readonly key: string;
  readonly via: Via;
  readonly to: string;
  readonly body: Reach['body'];
}

let count = 0;

const typedWay = ({ via, to, body }: Reach): TypedWay => ({ key: `way-${++count}`, via, to, body });

export const typedWays = (reach: readonly Reach[]): readonly TypedWay[] => reach.map(typedWay);

/** What a console shows has no address of its own. */
const CONSOLE = 'console';

export const reachOf = (ways: readonly TypedWay[]): readonly Reach[] =>
  ways.map(({ via, to, body }) => ({
    ...{ via, to: via === 'console' ? CONSOLE : addressOf(via, to) },
    ...(via === 'webhook' && body !== undefined ? { body } : {}),
  }));

/** A telephone number is typed with blanks and dashes. */
const addressOf = (via: Via, to: string): string =>
  via === 'sms' ? to.replace(/[\s()./-]/g, '') : to.trim();

const FIELD_TYPE = { sms: 'tel', email: 'email', webhook: 'url', console: 'text' } as const;

/** Ways of one person [core/model/people, PEOPLE_LIMITS]. */
const MOST_WAYS = 16;

interface WaysParts {
  readonly ways: readonly TypedWay[];
  readonly onChange: (ways: readonly TypedWay[]) => void;
  readonly wrongs: Wrongs;
}

export function WaysFields({ ways, onChange, wrongs }: WaysParts) {
  const here = useSeen<readonly Way[]>('/api/ways');
  const isUsable = (via: Via): boolean => here.answer?.find((way) => way.via === via)?.usable !== false;
  const change = (key: string, part: Partial<TypedWay>): void =>
    onChange(ways.map((way) => (way.key === key ? { ...way, ...part } : way)));
  return (
    <fieldset class="part">
      <legend>{say('settings.ways')}</legend>
      <p class="soft">{say('settings.waysHint')}</p>
      {ways.map((way, index) => (
        <div key={way.key}>
          <SelectField
            label={say('settings.way', { number: index + 1 })}
            value={way.via}
            onChange={(via) => change(way.key, { via: via as Via })}
            hint={isUsable(way.via) ? undefined : say(`settings.unusable_${way.via}`)}
            options={VIAS.map((via) => ({ value: via, label: say(`settings.via_${via}`) }))}
          />
          {way.via === 'console' ? null : (
            <TextField
              label={say(`settings.to_${way.via}`)}
              hint={say(`settings.toHint_${way.via}`)}
              type={FIELD_TYPE[way.via]}
              value={way.to}
              onChange={(to) => change(way.key, { to })}
              wrong={wrongs[`person/reach/${index}/to`]}
              required
            />
          )}
          <Button kind="quiet" onPress={() => onChange(ways.filter(({ key }) => key !== way.key))}>
            {say('settings.wayOut', { number: index + 1 })}
          </Button>
        </div>
      ))}
      {ways.length >= MOST_WAYS ? null : (
        <div class="buttons">
          <Button kind="quiet" onPress={() => onChange([...ways, typedWay({ via: 'sms', to: '' })])}>
            {say('settings.wayAdd')}
          </Button>
        </div>
      )}
    </fieldset>
  );
}
