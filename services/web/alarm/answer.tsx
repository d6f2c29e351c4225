/** What people answer: that they have seen it, and that it is to be quiet for a time. */
import { useRef, useState } from 'preact/hooks';
import { OnlyWhoMay } from '../access/only-who-may.js';
import { ask } from '../api/client.js';
import type { AlarmStory } from '../api/types/alarm-story.js';
import { NumberField, TextField } from '../parts/field.js';
import { Fold } from '../parts/fold.js';
import { expectAll, Form, NotAsExpected } from '../parts/form.js';
import { rememberPerson, usePerson } from '../parts/person.js';
import { PersonField } from '../parts/person-field.js';
import { useSite } from '../parts/site.js';
import { typedNumber } from '../parts/typed-number.js';
import { say } from '../words/say.js';
import { dayAndTime } from '../words/times.js';

/** Of the service: IEC 62682 shelving always has an end. */
const MOST_h = 72;

interface PageParts {
  readonly story: AlarmStory;
  /** The service took it. */
  readonly onDone: () => void;
}

interface AnswerParts extends PageParts {
  readonly by: string;
  readonly setBy: (by: string) => void;
  /** People of the site. */
  readonly names: readonly string[];
}

const addressOf = ({ id }: AlarmStory, what: 'acknowledge' | 'shelve'): string =>
  `/api/alarms/${encodeURIComponent(id)}/${what}`;

function requireName(by: string): string {
  if (by.trim() === '') throw new NotAsExpected({ by: say('alarm.byMissing') });
  rememberPerson(by);
  return by.trim();
}

export function Answer({ story, onDone }: PageParts) {
  const [by, setBy] = usePerson();
  const { names } = useSite(story.site);
  const told = useRef<HTMLDivElement>(null);
  // The button that was pressed goes away: who came by keys is led to what it did.
  const done = (): void => {
    onDone();
    told.current?.focus();
  };
  const parts = { story, onDone: done, by, setBy, names };
  const { acknowledgement, shelving, state, clearedAt, withdrawn } = story;
  const answered = acknowledgement !== null || (state === 'shelved' && shelving !== null);
  return (
    <section aria-labelledby="answer" class={answered ? undefined : 'not-printed'}>
      <h2 id="answer">{say('alarm.answer')}</h2>
      <div role="status" tabIndex={-1} ref={told}>
        {acknowledgement ? (
          <p>{say('alarm.seenBy', { by: acknowledgement.by, when: dayAndTime(acknowledgement.at) })}</p>
        ) : null}
        {state === 'shelved' && shelving ? (
          <p>{say('alarm.shelvedUntil', { by: shelving.by, when: dayAndTime(shelving.until) })}</p>
        ) : null}
      </div>
      {withdrawn || (acknowledgement && clearedAt !== null) ? null : (
        <OnlyWhoMay action="answer-alarms" bed={story.bed}>
          {acknowledgement ? null : <Seen {...parts} />}
          {clearedAt === null ? (
            <Fold title={say('alarm.shelve')}>
              <Shelve {...parts} />
            </Fold>
          ) : null}
        </OnlyWhoMay>
      )}
    </section>
  );
}

function Seen({ story, onDone, by, setBy, names }: AnswerParts) {
  const [note, setNote] = useState('');
  const send = async (): Promise<void> => {
    const body = { by: requireName(by), note: note.trim() };
    await ask(addressOf(story, 'acknowledge'), { method: 'POST', body });
    onDone();
  };
  return (
    <Form label={say('alarm.sayseen')} send={say('alarm.sayseen')} onSend={send}>
      {(wrongs) => (
        <>
          <PersonField value={by} onChange={setBy} wrong={wrongs['by']} names={names} />
          <TextField
            label={say('alarm.note')}
            hint={say('alarm.noteHint')}
            value={note}
            onChange={setNote}
            wrong={wrongs['note']}
          />
        </>
      )}
    </Form>
  );
}

function Shelve({ story, onDone, by, setBy, names }: AnswerParts) {
  const [hours, setHours] = useState('6');
  const send = async (): Promise<void> => {
    const typed = typedNumber(hours) ?? Number.NaN;
    expectAll(
      () => {
        if (!(typed > 0 && typed <= MOST_h)) throw new NotAsExpected({ hours: say('alarm.hoursWrong') });
      },
      () => requireName(by),
    );
    await ask(addressOf(story, 'shelve'), { method: 'POST', body: { by: requireName(by), hours: typed } });
    onDone();
  };
  return (
    <Form label={say('alarm.shelve')} send={say('alarm.shelveSend')} onSend={send}>
      {(wrongs) => (
        <>
          <NumberField
            label={say('alarm.hours')}
            hint={say('alarm.shelveHint')}
            value={hours}
            onChange={setHours}
            unit="h"
            wrong={wrongs['hours']}
          />
          <PersonField value={by} onChange={setBy} wrong={wrongs['by']} names={names} />
        </>
      )}
    </Form>
  );
}
