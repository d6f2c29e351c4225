/** What a bed asks of a person now: open alarms, the most urgent first, and the ways to write things down. */

import { ThenAndNow } from '../alarm/then-and-now.js';
import type { Alarm } from '../api/types/alarm.js';
import type { Bed, RotLeft } from '../api/types/bed.js';
import { AlarmText } from '../parts/alarm-text.js';
import { ButtonLink } from '../parts/button.js';
import { Standing } from '../parts/standing.js';
import { When } from '../parts/when.js';
import { say } from '../words/say.js';
import { dayAndTime } from '../words/times.js';

const ACTIONS = ['unpack', 'check', 'service', 'none'] as const;
const PRIORITIES = ['high', 'medium', 'low'] as const;

/** As the service orders them: by what there is to do, by priority, the newest first. */
const byUrgency = (one: Alarm, other: Alarm): number =>
  ACTIONS.indexOf(one.action) - ACTIONS.indexOf(other.action) ||
  PRIORITIES.indexOf(one.priority) - PRIORITIES.indexOf(other.priority) ||
  Date.parse(other.raisedAt) - Date.parse(one.raisedAt);

export function WhatToDo({ bed }: { bed: Bed }) {
  const alarms = [...bed.openAlarms].sort(byUrgency);
  const id = encodeURIComponent(bed.id);
  return (
    <section class="card" aria-labelledby="what-to-do">
      <h2 id="what-to-do">{say('bed.whatToDo')}</h2>
      {bed.rotLeft ? <RotKnown rot={bed.rotLeft} /> : null}
      {alarms.length === 0 && !bed.rotLeft ? <p>{say('bed.nothingToDo')}</p> : null}
      <ul class="to-do">
        {alarms.map((alarm) => (
          <li key={alarm.id}>
            <Asked alarm={alarm} probes={bed.probes} />
          </li>
        ))}
      </ul>
      <div class="buttons">
        <ButtonLink href={`/jobs/inspect/${id}`}>{say('bed.recordLook')}</ButtonLink>
        <ButtonLink kind="quiet" href={`/jobs/stock/${id}`}>
          {say('bed.stock')}
        </ButtonLink>
        <ButtonLink kind="quiet" href={`/jobs/outlook/${id}`}>
          {say('bed.outlook')}
        </ButtonLink>
        <ButtonLink kind="quiet" href={`/jobs/fill/${id}`}>
          {say('bed.fill')}
        </ButtonLink>
      </div>
    </section>
  );
}

function RotKnown({ rot: { text, language, since } }: { rot: RotLeft }) {
  return (
    <>
      <Standing stands="unpack" />
      <p>
        <AlarmText alarm={{ text, language }} />
      </p>
      <p class="soft">
        {say('bed.sinceWhen')} <When at={since} />
      </p>
    </>
  );
}

function Asked({ alarm, probes }: { alarm: Alarm; probes: Bed['probes'] }) {
  const { id, action, state, raisedAt } = alarm;
  return (
    <>
      {action === 'none' ? null : <Standing stands={action} />}
      <p>
        <AlarmText alarm={alarm} />
      </p>
      <ThenAndNow alarm={alarm} probes={probes} />
      <p class="soft">
        {say('bed.sinceWhen')} <When at={raisedAt} />
        {state === 'shelved' ? ` · ${say('bed.shelved')}` : null}
        {state === 'acknowledged' ? ` · ${say('bed.acknowledged')}` : null}
      </p>
      <p>
        <a class="more" href={`/alarms/${encodeURIComponent(id)}`}>
          {say('bed.openAlarm')}
          <span class="aloud"> {say('bed.openAlarmOf', { since: dayAndTime(raisedAt) })}</span>
        </a>
      </p>
    </>
  );
}
