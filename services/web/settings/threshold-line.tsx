/** One threshold, and the form that sets it or takes it back. */

import { useState } from 'preact/hooks';
import { useMay } from '../access/may.js';
import type { Threshold, ThresholdValue } from '../api/types/settings.js';
import type { Changed } from '../api/types/site.js';
import { Button } from '../parts/button.js';
import { NumberField, TextField, Tick } from '../parts/field.js';
import { NotAsExpected } from '../parts/form.js';
import { typedNumber } from '../parts/typed-number.js';
import { locale } from '../words/language.js';
import { falseAlarms } from '../words/rates.js';
import { say } from '../words/say.js';
import { putEntry, readEntry } from './entry.js';
import { EntryForm } from './entry-form.js';
import { Follows } from './follows.js';
import { settingAt, withSetting } from './threshold-path.js';
import type { EntryOf, Settable } from './thresholds-page.js';

interface LineParts {
  readonly threshold: Threshold;
  readonly entry: EntryOf;
  readonly onSaved: () => void;
}

/** As this language writes it, with all its digits. */
const shown = (value: ThresholdValue): string =>
  typeof value === 'number' ? value.toLocaleString(locale(), { maximumFractionDigits: 10 }) : value;

export function ThresholdLine({ threshold, entry, onSaved }: LineParts) {
  const { name, meaning, unit, source, value, setAt } = threshold;
  const maySet = useMay('describe');
  const [isOpen, setOpen] = useState(false);
  const [saved, setSaved] = useState<Changed<Settable>>();
  return (
    <div class="threshold" id={`threshold-${name}`}>
      <h2>
        <span lang="en">{name.replaceAll('_', ' ')}</span>
      </h2>
      <p lang="en">{meaning}</p>
      <p>
        <span class="value">{say('settings.inForce', { value: shown(value), unit })}</span>{' '}
        {say(`settings.setAt_${setAt}`)}
      </p>
      {unit === 'alarms/bed-month' && typeof value === 'number' ? <p>{falseAlarms(value)}</p> : null}
      <p class="soft">
        {say('settings.defaultIs', { value: shown(threshold.default), unit })} <span lang="en">{source}</span>
      </p>
      {isOpen || !maySet ? null : (
        <Button kind="quiet" label={say('settings.setNamed', { name })} onPress={() => setOpen(true)}>
          {say('settings.set')}
        </Button>
      )}
      <Follows saved={saved} />
      {isOpen ? (
        <SetForm
          {...{ threshold, entry }}
          onClose={() => setOpen(false)}
          onSaved={(changed) => {
            setSaved(changed);
            setOpen(false);
            onSaved();
          }}
        />
      ) : null}
    </div>
  );
}

interface SetFormParts {
  readonly threshold: Threshold;
  readonly entry: EntryOf;
  readonly onClose: () => void;
  readonly onSaved: (changed: Changed<Settable>) => void;
}

function SetForm({ threshold, entry: { kind, path }, onClose, onSaved }: SetFormParts) {
  const { name, unit, low, high, setAt, otherwise } = threshold;
  const isOwn = setAt === kind;
  const [text, setText] = useState(String(threshold.value));
  const [back, setBack] = useState(false);
  const about = {
    label: say('settings.newValue', { name }),
    hint:
      low === null || high === null
        ? undefined
        : say('settings.bounds', { low: shown(low), high: shown(high) }),
    ...{ value: text, onChange: setText },
  };
  const typed = (): ThresholdValue => (low === null ? text : checked(text, threshold));
  return (
    <EntryForm<Settable>
      label={say('settings.setNamed', { name })}
      send={say('settings.save')}
      check={() => back || typed()}
      onSend={async (by) => {
        const value = back ? undefined : typed();
        // Read now: whatever else somebody set meanwhile stays.
        const { content, tag } = await readEntry<Settable>(path);
        const seen = isOwn ? threshold.value : undefined;
        if (settingAt(content, threshold.path) !== seen)
          throw new NotAsExpected({ value: say('settings.valueMoved') });
        return putEntry<Settable>(path, tag, { by, [kind]: withSetting(content, threshold.path, value) });
      }}
      onSaved={onSaved}
      onReadAgain={onClose}
    >
      {(wrongs) => {
        const wrong =
          wrongs['value'] ?? wrongs[`${kind}/${threshold.path.join('/')}`] ?? wrongs[`${kind}/thresholds`];
        return (
          <>
            {low === null ? (
              <TextField {...about} wrong={wrong} type="time" />
            ) : (
              <NumberField {...about} wrong={wrong} unit={unit} />
            )}
            {isOwn ? (
              <Tick
                label={say('settings.takeBack', { value: shown(otherwise), unit })}
                checked={back}
                onChange={setBack}
              />
            ) : null}
            <div class="buttons">
              <Button kind="quiet" onPress={onClose}>
                {say('settings.leaveIt')}
              </Button>
            </div>
          </>
        );
      }}
    </EntryForm>
  );
}

function checked(text: string, { low, high }: Threshold): number {
  const value = typedNumber(text);
  if (value !== undefined && value >= (low ?? -Infinity) && value <= (high ?? Infinity)) return value;
  throw new NotAsExpected({
    value: say('settings.valueWrong', { low: shown(low ?? 0), high: shown(high ?? 0), got: text }),
  });
}
