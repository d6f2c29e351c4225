/** Somebody has a bed filled that was not found ready: who and why stays beside the list. */
import { useState } from 'preact/hooks';
import { ask } from '../../api/client.js';
import type { ReadinessRecord } from '../../api/types/readiness.js';
import { TextField } from '../../parts/field.js';
import { Form, NotAsExpected } from '../../parts/form.js';
import { useKept } from '../../parts/kept.js';
import { Notice } from '../../parts/notice.js';
import { rememberPerson, usePerson } from '../../parts/person.js';
import { say } from '../../words/say.js';
import { dayAndTime } from '../../words/times.js';

/** Characters; as the service takes them. */
const REASON = { least: 10, most: 500 } as const;

interface OverrideParts {
  readonly bed: string;
  /** The list that is kept; null where none is. */
  readonly record: ReadinessRecord | null;
  readonly onDone: () => void;
}

export function Override({ bed, record, onDone }: OverrideParts) {
  const [reason, changeReason] = useKept(`draft.override.${bed}`, '');
  const [by, changeBy] = usePerson();
  const [sent, setSent] = useState(false);
  if (record?.verdict === 'ready') return null;
  const send = async (): Promise<void> => {
    await ask(`/api/beds/${bed}/readiness/${record?.id}/override`, {
      method: 'POST',
      body: bodyOf(reason, by),
    });
    rememberPerson(by);
    changeReason(undefined);
    setSent(true);
    onDone();
  };
  return (
    <section class="card" aria-labelledby="ready-override">
      <h2 id="ready-override">{say('ready.overrideTitle')}</h2>
      <Overrides record={record} />
      {sent ? null : (
        <>
          <Notice kind="caution">
            <p>{say('ready.overrideCaution')}</p>
          </Notice>
          {record === null ? (
            <p>{say('ready.overrideFirst')}</p>
          ) : (
            <>
              <p>{say('ready.overrideAbout', { day: dayAndTime(record.at), by: record.by })}</p>
              <Form label={say('ready.overrideTitle')} send={say('ready.overrideSend')} onSend={send}>
                {(wrongs) => (
                  <>
                    <TextField
                      label={say('ready.overrideReason')}
                      hint={say('ready.overrideReasonHint')}
                      rows={3}
                      value={reason}
                      onChange={changeReason}
                      wrong={wrongs['reason']}
                      required
                    />
                    <TextField
                      label={say('ready.overrideBy')}
                      value={by}
                      autocomplete="name"
                      onChange={changeBy}
                      wrong={wrongs['by']}
                      required
                    />
                  </>
                )}
              </Form>
            </>
          )}
        </>
      )}
    </section>
  );
}

function bodyOf(reason: string, by: string) {
  const count = reason.trim().length;
  const wrongs = {
    ...(count >= REASON.least && count <= REASON.most
      ? {}
      : { reason: say('ready.expectedReason', { count }) }),
    ...(by.trim() === '' ? { by: say('ready.expectedName') } : {}),
  };
  if (Object.keys(wrongs).length > 0) throw new NotAsExpected(wrongs);
  return { by: by.trim(), at: new Date().toISOString(), reason: reason.trim() };
}

export function Overrides({ record }: { record: ReadinessRecord | null }) {
  return (
    <>
      {record?.overrides.map(({ by, at, reason }) => (
        <p key={at}>
          <b>{say('ready.overridden', { by, day: dayAndTime(at), reason })}</b>
        </p>
      ))}
    </>
  );
}
