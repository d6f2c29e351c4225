/** Alarms that were open at a point in time, and where the watch puts what it takes for their source. */

import type { Alarm, Place } from '../../api/types/alarm.js';
import { AlarmText } from '../../parts/alarm-text.js';
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { dayAndTime } from '../../words/times.js';
import type { Round } from './marks.js';

/** @param at event time, ms */
export const openAt = (alarms: readonly Alarm[], at: number): Alarm[] =>
  alarms.filter(
    ({ raisedAt, clearedAt }) =>
      Date.parse(raisedAt) <= at && (clearedAt === null || Date.parse(clearedAt) > at),
  );

type Placed = Alarm & { readonly place: Place };

export const placed = (alarms: readonly Alarm[]): Placed[] =>
  alarms.filter((alarm): alarm is Placed => alarm.place !== null);

const measures = ({ x, y, depth, radius }: Place) => ({
  ...{ along: number(x), across: number(y) },
  ...{ deep: number(depth), radius: number(radius) },
});

export const sourceRounds = (alarms: readonly Alarm[]): Round[] =>
  placed(alarms).map(({ id, place }) => ({
    ...place,
    ...{ key: id, kind: 'source', name: say('bed.source') },
  }));

/** In words: what was open then, and where to dig. */
export function OpenThen({ alarms, isPast }: { alarms: readonly Alarm[]; isPast: boolean }) {
  const sources = placed(alarms);
  return (
    <div class="open-then">
      {sources.length === 0 ? <p>{say(isPast ? 'bed.noSourceThen' : 'bed.noSource')}</p> : null}
      {sources.map(({ id, place }) => (
        <p key={id}>
          <b>{say('bed.sourceAt', measures(place))}</b>{' '}
          {isPast ? <span class="soft">{say('bed.sourceByNow')}</span> : null}
        </p>
      ))}
      {isPast && alarms.length > 0 ? (
        <>
          <p>{say('bed.openThen')}</p>
          <ul>
            {alarms.map((alarm) => (
              <li key={alarm.id}>
                <a href={`/alarms/${encodeURIComponent(alarm.id)}`}>
                  {say('bed.since', { since: dayAndTime(alarm.raisedAt) })}
                </a>{' '}
                <AlarmText alarm={alarm} />
              </li>
            ))}
          </ul>
        </>
      ) : null}
    </div>
  );
}
