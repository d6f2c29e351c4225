/** Every job of a bed, in the order of its season. */

import { useMayOpen } from '../access/may.js';
import { NotYours } from '../access/only-who-may.js';
import { say } from '../words/say.js';
import { type BedInSeason, fits } from './bed-jobs.js';
import { addressOf, type Job, jobs } from './jobs.js';
import { UnderWay } from './under-way.js';

export function SeasonLine({ beds }: { beds: readonly BedInSeason[] }) {
  return (
    <ol class="season-line">
      {jobs().map((job) => (
        <li key={job.name}>
          <h3>
            {job.at === 'none' ? (
              <a href={addressOf(job)}>{say(`work.${job.name}`)}</a>
            ) : (
              say(`work.${job.name}`)
            )}
          </h3>
          <p>{say(`work.${job.name}About`)}</p>
          {job.at === 'none' ? null : <WaysToBeds job={job} beds={beds} />}
          <UnderWay job={job.name} beds={beds} />
        </li>
      ))}
    </ol>
  );
}

function WaysToBeds({ job, beds }: { job: Job; beds: readonly BedInSeason[] }) {
  const mayOpen = useMayOpen();
  const fitting = beds.filter((one) => fits(job, one));
  const [first] = fitting;
  if (!first) return <p class="soft">{say('work.noBed')}</p>;
  const own = fitting.filter(({ bed }) => mayOpen(addressOf(job, bed.id)));
  if (own.length === 0) return <NotYours action="write-down" bed={first.bed.id} />;
  return (
    <ul class="ways-to-beds" aria-label={say('work.jobAtBeds', { job: say(`work.${job.name}`) })}>
      {own.map(({ bed }) => (
        <li key={bed.id}>
          <a href={addressOf(job, bed.id)}>{bed.name}</a>
        </li>
      ))}
    </ul>
  );
}
