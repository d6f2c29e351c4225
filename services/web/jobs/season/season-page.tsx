import { useLocation } from 'preact-iso';
import { useSeen } from '../../api/seen.js';
import type { Season } from '../../api/types/season.js';
import { Shown } from '../../parts/shown.js';
import { Title } from '../../parts/title.js';
import { say } from '../../words/say.js';
import { dayOf } from '../../words/times.js';
import { EnglishList } from '../english-list.js';
import { type BedNamed, SeasonForm } from './season-form.js';
import './season.css';
import { OneSeason } from './one-season.js';
import { SideBySide } from './side-by-side.js';

/** The season of a bed, or of several side by side. */
export default function SeasonPage() {
  const { query } = useLocation();
  const beds = useSeen<readonly BedNamed[]>('/api/beds', { live: ['site'] });
  const asked = (query['beds'] ?? '').split(',').filter((id) => id !== '');
  const to = query['to'];
  return (
    <>
      <Title>{say('season.title')}</Title>
      <Shown of={beds}>
        {(all) => <SeasonForm key={`${asked} ${to}`} beds={all} asked={asked} to={to} />}
      </Shown>
      {asked.length > 0 ? <Report key={`${asked} ${to}`} beds={asked} to={to} /> : null}
    </>
  );
}

function Report({ beds, to }: { beds: readonly string[]; to: string | undefined }) {
  const query = `${new URLSearchParams({ beds: beds.join(','), ...(to === undefined ? {} : { to }) })}`;
  const seen = useSeen<Season>(`/api/seasons?${query}`);
  return (
    <Shown of={seen}>
      {(season) => (
        <article>
          <p class="soft">{say('season.until', { day: dayOf(season.to) })}</p>
          <ul class="plain-links">
            <li>
              <a href={`/api/seasons.html?${query}`} target="_blank" rel="noreferrer">
                {say('season.print')}
              </a>
            </li>
            <li>
              <a href={`/api/seasons.pdf?${query}`} target="_blank" rel="noreferrer">
                {say('season.pdf')}
              </a>
            </li>
          </ul>
          {season.beds.length === 1 && season.beds[0] ? (
            <OneSeason season={season.beds[0]} />
          ) : (
            <SideBySide beds={season.beds} />
          )}
          {season.notes.length > 0 ? (
            <>
              <h2>{say('season.notes')}</h2>
              <EnglishList texts={season.notes} />
            </>
          ) : null}
        </article>
      )}
    </Shown>
  );
}
