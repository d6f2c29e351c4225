import type { Alarm } from '../api/types/alarm.js';
import { StandingShape } from '../parts/standing.js';
import { say } from '../words/say.js';
import { alarmAddress, shapeOf, stateInWords, timeInWords } from './alarm-words.js';

interface ListParts {
  readonly alarms: readonly Alarm[];
  /** Name of a bed by its id. */
  readonly nameOf: (bed: string) => string;
}

export function AlarmList({ alarms, nameOf }: ListParts) {
  return (
    <ul class="alarm-list">
      {alarms.map((one) => (
        <li key={one.id}>
          <AlarmLine alarm={one} bed={nameOf(one.bed)} />
        </li>
      ))}
    </ul>
  );
}

function AlarmLine({ alarm, bed }: { alarm: Alarm; bed: string }) {
  const shape = shapeOf(alarm);
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
      <p lang={alarm.language ?? 'en'}>{alarm.text}</p>
      <p class="soft">
        {timeInWords(alarm)} · {stateInWords(alarm)}
      </p>
    </article>
  );
}
