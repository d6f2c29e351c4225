/** Alarms that are over, newest first, some at a time. */
import { useEffect, useState } from 'preact/hooks';
import { askWhole } from '../api/client.js';
import { useSeen } from '../api/seen.js';
import type { Alarm } from '../api/types/alarm.js';
import { Button } from '../parts/button.js';
import { SelectField } from '../parts/field.js';
import { messageOf } from '../parts/form.js';
import { Notice } from '../parts/notice.js';
import { Shown } from '../parts/shown.js';
import { say } from '../words/say.js';
import { AlarmList } from './alarm-list.js';
import { isOpen } from './alarm-words.js';

/** Alarms on one page: what a phone shows in some swipes. */
const PAGE = 20;

const PAST_STATES = ['returned-unacknowledged', 'normal'] as const;

interface PastParts {
  readonly beds: readonly { readonly id: string; readonly name: string }[];
  readonly nameOf: (bed: string) => string;
}

export function PastAlarms({ beds, nameOf }: PastParts) {
  const [bed, setBed] = useState('');
  const [state, setState] = useState('');
  const path = pathFor(bed, state);
  return (
    <section aria-labelledby="past">
      <h2 id="past">{say('alarm.past')}</h2>
      <fieldset class="field">
        <legend>{say('alarm.filter')}</legend>
        <SelectField
          label={say('alarm.bed')}
          value={bed}
          onChange={setBed}
          options={[
            { value: '', label: say('alarm.allBeds') },
            ...beds.map(({ id, name }) => ({ value: id, label: name })),
          ]}
        />
        <SelectField
          label={say('alarm.state')}
          value={state}
          onChange={setState}
          options={[
            { value: '', label: say('alarm.allStates') },
            ...PAST_STATES.map((value) => ({ value, label: say(`alarm.${value}`) })),
          ]}
        />
      </fieldset>
      <Pages key={path} path={path} nameOf={nameOf} />
    </section>
  );
}

function pathFor(bed: string, state: string): string {
  const asked = new URLSearchParams({ limit: String(PAGE) });
  if (bed) asked.set('bed', bed);
  if (state) asked.set('state', state);
  return `/api/alarms?${asked}`;
}

/** The first page as it was last seen; the others are asked for one after the other. */
function Pages({ path, nameOf }: { path: string; nameOf: PastParts['nameOf'] }) {
  const first = useSeen<readonly Alarm[]>(path, { live: ['alarms'] });
  const [later, setLater] = useState<readonly Alarm[]>([]);
  const [ended, setEnded] = useState(false);
  const [failed, setFailed] = useState<string>();
  useEffect(() => {
    setLater([]);
    setEnded(false);
  }, [first.answer]);
  const more = async (last: string): Promise<void> => {
    setFailed(undefined);
    try {
      const { answer, headers } = await askWhole<readonly Alarm[]>(
        `${path}&after=${encodeURIComponent(last)}`,
      );
      setLater((before) => [...before, ...answer]);
      setEnded(!headers.has('link'));
    } catch (error) {
      setFailed(messageOf(error));
    }
  };
  return (
    <Shown of={first}>
      {(answer) => {
        const all = [...answer, ...later];
        const past = all.filter((one) => !isOpen(one));
        const last = answer.length < PAGE || ended ? undefined : all.at(-1);
        return (
          <>
            {past.length === 0 ? <p role="status">{say('alarm.pastNone')}</p> : null}
            <AlarmList alarms={past} nameOf={nameOf} among={all} />
            {failed === undefined ? null : <Notice kind="refusal">{failed}</Notice>}
            {last ? (
              <Button kind="quiet" onPress={() => more(last.id)}>
                {say('alarm.more')}
              </Button>
            ) : null}
          </>
        );
      }}
    </Shown>
  );
}
