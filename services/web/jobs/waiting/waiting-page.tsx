/** What was written down on this device and has not been sent: why, and what can be done with it. */
import { useState } from 'preact/hooks';
import { flush, throwAway, useOutbox, type Waiting } from '../../api/outbox.js';
import { Button, ButtonLink } from '../../parts/button.js';
import { English, Notice } from '../../parts/notice.js';
import { Question } from '../../parts/question.js';
import { Title } from '../../parts/title.js';
import { say } from '../../words/say.js';
import { ago } from '../../words/times.js';

export default function WaitingPage() {
  const records = useOutbox();
  return (
    <>
      <Title>{say('inspect.waitingTitle')}</Title>
      {records.length === 0 ? <p role="status">{say('inspect.waitingNone')}</p> : null}
      {records.map((record) => (
        <Record key={record.id} record={record} />
      ))}
      {records.length > 0 ? <Button onPress={flush}>{say('inspect.tryNow')}</Button> : null}
    </>
  );
}

function Record({ record }: { record: Waiting }) {
  const { title, madeAt, refusal, after, opens } = record;
  return (
    <article class="card">
      <h2>{title}</h2>
      <p class="soft">{say('inspect.made', { when: ago(madeAt) })}</p>
      {refusal === undefined ? (
        <p>{say(after === undefined ? 'inspect.waiting' : 'inspect.waitingAfter')}</p>
      ) : (
        <Notice kind="plain" title={say('inspect.refused')}>
          <p>
            <English>{refusal}</English>
          </p>
        </Notice>
      )}
      <div class="buttons">
        {opens && refusal !== undefined ? <ButtonLink href={opens}>{say('inspect.mend')}</ButtonLink> : null}
        <ThrowAway record={record} />
      </div>
    </article>
  );
}

/** Asked twice: it is nowhere else. */
function ThrowAway({ record }: { record: Waiting }) {
  const [asked, setAsked] = useState(false);
  if (!asked)
    return (
      <Button
        kind="quiet"
        onPress={() => setAsked(true)}
        label={`${say('inspect.takeBack')}: ${record.title}`}
      >
        {say('inspect.takeBack')}
      </Button>
    );
  return (
    <Question
      text={say('inspect.sure')}
      yes={say('inspect.sureYes')}
      no={say('inspect.sureNo')}
      onYes={() => throwAway(record.id)}
      onNo={() => setAsked(false)}
    />
  );
}
