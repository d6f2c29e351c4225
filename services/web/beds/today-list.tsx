/** What needs a person, the most pressing first, each job with where it is done. */

import { withDegrees } from '../../core/alarms/degrees.js';
import { useMayOpen } from '../access/may.js';
import { type Today, type TodayItem, WHENS } from '../api/types/today.js';
import { StandingShape, type Stands } from '../parts/standing.js';
import { useNow } from '../parts/when.js';
import { language } from '../words/language.js';
import { say } from '../words/say.js';
import { ago, dayAndTime, dayOf, isLongAgo, wholeTime } from '../words/times.js';
import { jobsOf, keyOf, looksApart, type TodayJob } from './jobs-of-today.js';
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
            <Jobs jobs={ofGroup} />
          </section>
        ),
      )}
      {today.more > 0 ? <p>{say('beds.more', { count: today.more })}</p> : null}
    </>
  );
}

/** One look that is overdue is told as a job is; several are told in one. */
function Jobs({ jobs }: { jobs: readonly TodayJob[] }) {
  const { others, looks } = looksApart(jobs);
  const single = looks.length > 1 ? others : jobs;
  return (
    <ul>
      {single.map((job) => (
        <Job key={keyOf(job.items[0])} job={job} />
      ))}
      {looks.length > 1 ? <Looks jobs={looks} /> : null}
    </ul>
  );
}

function Looks({ jobs }: { jobs: readonly TodayJob[] }) {
  return (
    <li class="card looks">
      <p>{say('beds.looksOverdue', { count: jobs.length })}</p>
      <ul>
        {jobs.map(({ items: [{ bed, since, inHand, when }] }) =>
          bed === null ? null : (
            <li key={bed.id}>
              <a href={`/jobs/inspect/${bed.id}`}>{bed.name}</a>{' '}
              <span class="soft">
                {since === null ? null : say('beds.lookOverdue', { since: dayOf(since) })}
                {inHand === null ? null : ` · ${inHandSaid({ inHand, when })}`}
              </span>
            </li>
          ),
        )}
      </ul>
    </li>
  );
}

function Job({ job }: { job: TodayJob }) {
  const { when, items, alsoThere } = job;
  const mayOpen = useMayOpen();
  const leads = jobLeadsTo(job);
  const to = leads && mayOpen(leads.address) ? leads : undefined;
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
  const notes = [since === null ? '' : sinceSaid(since, now), inHandSaid(item)];
  return (
    <div class="thing">
      <p class="what" lang={spoken}>
        {own === undefined || own === leads ? said : <a href={own}>{said}</a>}
      </p>
      <p class="soft">{notes.filter(Boolean).join(' ')}</p>
    </div>
  );
}

const sinceSaid = (since: string, now: number): string =>
  isLongAgo(since, now)
    ? say('beds.sinceLong', { at: wholeTime(since) })
    : say('beds.sinceWhen', { at: dayAndTime(since), ago: ago(since, now) });

function inHandSaid({ inHand, when }: Pick<TodayItem, 'inHand' | 'when'>): string {
  if (inHand === null) return when === 'today' ? say('beds.inNobodysHand') : '';
  const { how, by, until } = inHand;
  return how === 'put-off' && until !== null
    ? say('beds.putOffBy', { by, until: dayAndTime(until) })
    : say('beds.seenBy', { by });
}
