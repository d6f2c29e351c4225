/** Work: what comes next at each bed, and every job of a season. */
import { useSeen } from '../api/seen.js';
import type { BedAtWork, Look } from '../api/types/work.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { say } from '../words/say.js';
import { type BedInSeason, bedsInSeason } from './bed-jobs.js';
import { Next } from './next.js';
import { SeasonLine } from './season-line.js';
import './work.css';

export default function WorkPage() {
  const beds = useSeen<readonly BedAtWork[]>('/api/beds', { live: ['beds', 'site'] });
  const looks = useSeen<readonly Look[]>('/api/looks', { live: ['beds', 'site', 'alarms'] });
  const known = bedsInSeason(beds.answer ?? [], looks.answer ?? []);
  return (
    <>
      <Title>{say('app.wayWork')}</Title>
      <section aria-labelledby="work-next">
        <h2 id="work-next">{say('work.nextTitle')}</h2>
        <Shown of={beds}>{() => <Shown of={looks}>{() => <NextByBed beds={known} />}</Shown>}</Shown>
      </section>
      <section aria-labelledby="work-season">
        <h2 id="work-season">{say('work.seasonTitle')}</h2>
        <SeasonLine beds={known} />
      </section>
      <section aria-labelledby="work-trials">
        <h2 id="work-trials">
          <a href="/trials">{say('trials.title')}</a>
        </h2>
        <p>{say('trials.about')}</p>
      </section>
    </>
  );
}

function NextByBed({ beds }: { beds: readonly BedInSeason[] }) {
  if (beds.length === 0) return <p>{say('work.noBeds')}</p>;
  return (
    <div class="next-by-bed">
      {beds.map((one) => (
        <article class="card" key={one.bed.id} aria-labelledby={`next-${one.bed.id}`}>
          <h3 id={`next-${one.bed.id}`}>
            <a href={`/beds/${one.bed.id}`}>{one.bed.name}</a>
          </h3>
          <Next of={one} />
        </article>
      ))}
    </div>
  );
}
