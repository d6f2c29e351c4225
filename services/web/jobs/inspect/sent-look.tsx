/** After a look was written down: what to do, what to know, and what became of alarms; or that it waits here. */

import { verdictInWords } from '../../alarm/history.js';
import type { LookAnswer } from '../../api/types/inspection.js';
import { Button, ButtonLink } from '../../parts/button.js';
import { Fold } from '../../parts/fold.js';
import { English, Notice } from '../../parts/notice.js';
import { Told } from '../../parts/told.js';
import { say } from '../../words/say.js';
import { asRead } from '../../words/service-english.js';
import type { Sent } from './send-look.js';

interface SentParts {
  readonly sent: Sent;
  readonly bed: { readonly id: string; readonly name: string };
  readonly alarm: string | null;
  readonly onAgain: () => void;
}

export function SentLook({ sent: { taken, waiting }, bed, alarm, onAgain }: SentParts) {
  return (
    <>
      {taken.kept ? <Kept /> : <Taken answer={taken.answer} />}
      {waiting > 0 ? (
        <p>
          {say('inspect.photosWait', { count: waiting })}{' '}
          <a href="/jobs/waiting">{say('app.lookAtWaiting')}</a>
        </p>
      ) : null}
      <div class="buttons">
        {alarm ? (
          <ButtonLink href={`/alarms/${encodeURIComponent(alarm)}`}>{say('inspect.toAlarm')}</ButtonLink>
        ) : null}
        <ButtonLink kind="quiet" href={`/beds/${bed.id}`}>
          {say('inspect.toBed', { bed: bed.name })}
        </ButtonLink>
        <Button kind="quiet" onPress={onAgain}>
          {say('inspect.again')}
        </Button>
      </div>
    </>
  );
}

function Kept() {
  return (
    <>
      <Notice kind="done" title={say('inspect.keptTitle')}>
        <p>{say('inspect.kept')}</p>
      </Notice>
      <Notice kind="caution">
        <p>{say('inspect.food')}</p>
      </Notice>
    </>
  );
}

function Taken({ answer }: { answer: LookAnswer }) {
  const { advice, cautions, left, notes, judged, isNew } = answer;
  return (
    <>
      <Notice kind="done" title={say('inspect.sentTitle')}>
        {isNew ? null : <p>{say('inspect.sentBefore')}</p>}
        {judged ? null : <p>{say('inspect.late')}</p>}
        {left === null ? null : <p>{say('inspect.left', { left })}</p>}
        {notes.map((note) => (
          <p key={note} lang="en">
            {asRead(note)}
          </p>
        ))}
      </Notice>
      <h2>{say('inspect.advice')}</h2>
      {advice.length === 0 ? <p>{say('inspect.adviceNone')}</p> : null}
      <ul>
        {advice.map(({ text }) => (
          <li key={text}>
            <Told>{text}</Told>
          </li>
        ))}
      </ul>
      {advice.length === 0 ? null : (
        <Fold title={say('inspect.sources')}>
          <ul lang="en">
            {[...new Set(advice.map(({ source }) => source))].map((source) => (
              <li key={source}>{source}</li>
            ))}
          </ul>
        </Fold>
      )}
      <h2>{say('inspect.cautions')}</h2>
      {cautions.map((caution) => (
        <Notice kind="caution" key={caution}>
          <p>
            <Told>{caution}</Told>
          </p>
        </Notice>
      ))}
      <Became answer={answer} />
    </>
  );
}

/** Verdicts that a look gives; of an alarm that is older than a week it says nothing. */
const SAYS: readonly string[] = ['right', 'wrong', 'other'];

function Became({ answer: { alarms, ended } }: { answer: LookAnswer }) {
  if (alarms.length === 0) return null;
  return (
    <>
      <h2>{say('inspect.alarms')}</h2>
      <ul>
        {alarms.map((one) => (
          <li key={one.id}>
            <a href={`/alarms/${encodeURIComponent(one.id)}`}>
              <English>{one.text}</English>
            </a>{' '}
            {ended.includes(one.id) || one.clearedAt !== null ? say('inspect.ended') : say('inspect.lasts')}
            {one.foundOut && SAYS.includes(one.foundOut.verdict)
              ? `; ${verdictInWords(one.foundOut.verdict)}`
              : ''}
          </li>
        ))}
      </ul>
    </>
  );
}
