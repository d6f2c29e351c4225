/** What needs a person, the most pressing first, each job with where it is done. */

import { withDegrees } from '../../core/alarms/degrees.js';
import { type Today, type TodayItem, WHENS } from '../api/types/today.js';
import { StandingShape, type Stands } from '../parts/standing.js';
import { useNow } from '../parts/when.js';
import { language } from '../words/language.js';
import { say } from '../words/say.js';
import { ago, dayAndTime } from '../words/times.js';
import { jobsOf, keyOf, type TodayJob } from './jobs-of-today.js';
import { alarmAddress, jobLeadsTo } from './leads-to.js';

const SHAPE: Readonly<Record<TodayItem['when'], Stands>> = {
  today: 'unpack',
  service: 'service',
  'next-visit': 'check',
  probe: 'service',
};

export function TodayList({ today }: { today: Today }) {
  const jobs = jobsOf(today.items);
  const groups = WHENS.map((when) => [when, jobs.filter((job) => job.when === when)] as const);
  return (
    <>
      {groups.map(([when, ofGroup]) =>
        ofGroup.length === 0 ? null : (
          <section key={when} class="needed" data-when={when} aria-labelledby={`needed-${when}`}>
            <h3 id={`needed-${when}`}>
              <StandingShape stands={SHAPE[when]} />
              {say(`beds.${when}`)}
            </h3>
            <ul>
              {ofGroup.map((job) => (
                <Job key={keyOf(job.items[0])} job={job} />
              ))}
            </ul>
          </section>
        ),
      )}
      {today.more > 0 ? <p>{say('beds.more', { count: today.more })}</p> : null}
    </>
  );
}

function Job({ job }: { job: TodayJob }) {
  const { when, items, alsoThere } = job;
  const to = jobLeadsTo(job);
  const [{ bed }] = items;
  return (
    <li class="card">
      {items.length > 1 && bed ? <p class="visit">{say('beds.oneVisit', { bed: bed.name })}</p> : null}
      {items.map((item) => (
        <Needed key={keyOf(item)} item={item} leads={to?.address} />
      ))}
      {alsoThere.length > 0 ? <p class="also-there">{say('beds.alsoThere')}</p> : null}
      {alsoThere.map((item) => (
        <Needed key={keyOf(item)} item={item} leads={to?.address} />
      ))}
      {to === undefined ? null : (
        <a class={when === 'today' ? 'button' : 'to-do'} href={to.address}>
          {to.words}
          {to.of === undefined ? null : <span class="aloud"> {to.of}</span>}
        </a>
      )}
    </li>
  );
}

/** @param leads where the job is done: an alarm with another page is led to by its own words */
function Needed({ item, leads }: { item: TodayItem; leads: string | undefined }) {
  const now = useNow();
  const { since, alarm } = item;
  const said = withDegrees(item.text, item.bed ? [item.bed.name] : []);
  const spoken = item.language === language() ? undefined : item.language;
  const own = alarm === null ? undefined : alarmAddress(alarm);
  const notes = [
    since === null ? '' : say('beds.sinceWhen', { at: dayAndTime(since), ago: ago(since, now) }),
    inHandSaid(item),
  ];
  return (
    <div class="thing">
      <p class="what" lang={spoken}>
        {own === undefined || own === leads ? said : <a href={own}>{said}</a>}
      </p>
      <p class="soft">{notes.filter(Boolean).join(' ')}</p>
    </div>
  );
}

function inHandSaid({ inHand, when }: TodayItem): string {
  if (inHand === null) return when === 'today' ? say('beds.inNobodysHand') : '';
  const { how, by, until } = inHand;
  return how === 'put-off' && until !== null
    ? say('beds.putOffBy', { by, until: dayAndTime(until) })
    : say('beds.seenBy', { by });
}
