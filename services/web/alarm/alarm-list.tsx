import { withDegrees } from '../../core/alarms/degrees.js';
import type { Alarm } from '../api/types/alarm.js';
import { StandingShape } from '../parts/standing.js';
import { say } from '../words/say.js';
import { dayAndTime } from '../words/times.js';
import { alarmAddress, graverAfter, shapeOf, stateInWords, timeInWords } from './alarm-words.js';

interface ListParts {
  readonly alarms: readonly Alarm[];
  /** Name of a bed by its id. */
  readonly nameOf: (bed: string) => string;
  /** Among which a graver alarm is looked for that took the place of one. */
  readonly among?: readonly Alarm[];
}

export function AlarmList({ alarms, nameOf, among = [] }: ListParts) {
  return (
    <ul class="alarm-list">
      {alarms.map((one) => (
        <li key={one.id}>
          <AlarmLine alarm={one} bed={nameOf(one.bed)} graver={graverAfter(one, among)} />
        </li>
      ))}
    </ul>
  );
}

function AlarmLine({ alarm, bed, graver }: { alarm: Alarm; bed: string; graver: Alarm | undefined }) {
  const shape = shapeOf(graver ? { action: alarm.action, clearedAt: null } : alarm);
  return (
    <article class="card">
      <h3>
        <a href={alarmAddress(alarm.id)}>{bed}</a>
      </h3>
      <p>
        <span class="standing" data-stands={shape}>
          <StandingShape stands={shape} />
          {say(`alarm.${alarm.action}`)}
        </span>
      </p>
      <p lang={alarm.language ?? 'en'}>{withDegrees(alarm.text, [bed])}</p>
      {graver ? (
        <p class="soft">
          {say('alarm.grewWorse', { when: dayAndTime(graver.raisedAt) })}{' '}
          <a href={alarmAddress(graver.id)}>{say(`alarm.${graver.action}`)}</a>
        </p>
      ) : (
        <p class="soft">
          {timeInWords(alarm)} · {stateInWords(alarm)}
        </p>
      )}
    </article>
  );
}
