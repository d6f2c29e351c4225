/** All alarms: those that are open first, the gravest before the others, then those that are over. */
import { useSeen } from '../api/seen.js';
import type { Alarm } from '../api/types/alarm.js';
import type { Bed } from '../api/types/bed.js';
import { Shown } from '../parts/shown.js';
import { useSite } from '../parts/site.js';
import { Title } from '../parts/title.js';
import { say } from '../words/say.js';
import './alarm.css';
import { AlarmList } from './alarm-list.js';
import { PastAlarms } from './past-alarms.js';

const ACTIONS = ['unpack', 'check', 'service', 'none'];

/** Nobody has answered: before what was seen, and that before what is quiet. */
const STATES = ['unacknowledged', 'acknowledged', 'shelved'];

const rank = ({ action, state }: Alarm): number =>
  (state === 'shelved' ? 100 : 0) + 10 * ACTIONS.indexOf(action) + STATES.indexOf(state);

const byUrgency = (one: Alarm, other: Alarm): number =>
  rank(one) - rank(other) || (one.raisedAt < other.raisedAt ? -1 : 1);

export default function AlarmsPage() {
  const beds = useSeen<readonly Bed[]>('/api/beds', { live: ['alarms', 'beds', 'site'] });
  // Times are said by the clock of the first site.
  useSite(beds.answer?.[0]?.site);
  return (
    <>
      <Title>{say('alarm.title')}</Title>
      <Shown of={beds}>
        {(answer) => {
          const open = answer.flatMap(({ openAlarms }) => openAlarms).sort(byUrgency);
          const nameOf = (id: string): string => answer.find((bed) => bed.id === id)?.name ?? id;
          return (
            <>
              <section aria-labelledby="open">
                <h2 id="open">{say('alarm.open')}</h2>
                {open.length === 0 ? <p>{say('alarm.openNone')}</p> : null}
                <AlarmList alarms={open} nameOf={nameOf} />
              </section>
              <PastAlarms beds={answer} nameOf={nameOf} />
            </>
          );
        }}
      </Shown>
    </>
  );
}
