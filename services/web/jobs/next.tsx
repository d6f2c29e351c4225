/** What comes next at one bed, in a sentence, and the way there. */
import { useMay } from '../access/may.js';
import { useSeen } from '../api/seen.js';
import type { ReadinessNow } from '../api/types/readiness.js';
import { AlarmText } from '../parts/alarm-text.js';
import { ButtonLink } from '../parts/button.js';
import { Told } from '../parts/told.js';
import { useNow } from '../parts/when.js';
import { say } from '../words/say.js';
import { ago, dayOf, isLongAgo } from '../words/times.js';
import { type BedInSeason, isEmpty, unpackOf } from './bed-jobs.js';
import { addressOf, jobNamed } from './jobs.js';

export function Next({ of }: { of: BedInSeason }) {
  return isEmpty(of) ? <NextOfEmpty of={of} /> : <NextOfFilled of={of} />;
}

/** The way to the job, where its page is there, for whoever may do it. */
function Way({ to, bed }: { to: 'ready' | 'fill' | 'inspect'; bed: string }) {
  const job = jobNamed(to);
  const may = useMay('write-down', bed);
  return job === undefined || !may ? null : (
    <p class="buttons">
      <ButtonLink href={addressOf(job, bed)}>{say(`work.${to}Go`)}</ButtonLink>
    </p>
  );
}

function NextOfEmpty({ of: { bed } }: { of: BedInSeason }) {
  const { answer } = useSeen<ReadinessNow>(`/api/beds/${bed.id}/readiness`);
  const isSettled = answer?.verdict === 'ready' || (answer?.record?.overrides.length ?? 0) > 0;
  return (
    <>
      <p>{bed.filled === null ? say('work.notFilled') : say('work.emptied')}</p>
      {answer ? <p>{sentenceOf(answer)}</p> : null}
      <Way to={isSettled ? 'fill' : 'ready'} bed={bed.id} />
    </>
  );
}

function sentenceOf({ verdict, items, notMet, unknown, record }: ReadinessNow): string {
  if (verdict === 'ready') return say('work.isReady');
  if (record && record.overrides.length > 0) return say('work.isOverridden');
  return say('work.isOpen', { all: items.length, notMet: notMet.length, unknown: unknown.length });
}

function NextOfFilled({ of: { bed, look } }: { of: BedInSeason }) {
  const now = useNow();
  if (!look?.dueAt) return null;
  const values = { day: dayOf(look.dueAt), ago: ago(look.dueAt, now) };
  const isFar = isLongAgo(look.dueAt, now);
  const reason = unpackOf(look) ?? look.reasons[0];
  const alarm = bed.openAlarms.find(({ id }) => id === reason?.alarm);
  return (
    <>
      <p>
        {look.due ? (
          <b>{say(isFar ? 'work.lookDueLong' : 'work.lookDue', values)}</b>
        ) : (
          say(isFar ? 'work.lookLaterLong' : 'work.lookLater', values)
        )}
      </p>
      {look.due && reason ? <p>{alarm ? <AlarmText alarm={alarm} /> : <Told>{reason.text}</Told>}</p> : null}
      {look.due ? <Way to="inspect" bed={bed.id} /> : null}
    </>
  );
}
