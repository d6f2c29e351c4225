/** One alarm: what, where, what to do, why, and what became of it. */

import { useEffect } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import { withDegrees } from '../../core/alarms/degrees.js';
import { useSeen } from '../api/seen.js';
import type { AlarmStory } from '../api/types/alarm-story.js';
import type { Bed } from '../api/types/bed.js';
import { ButtonLink } from '../parts/button.js';
import { Notice } from '../parts/notice.js';
import { Shown } from '../parts/shown.js';
import { StandingShape } from '../parts/standing.js';
import { Title } from '../parts/title.js';
import { Told } from '../parts/told.js';
import { number } from '../words/numbers.js';
import { say } from '../words/say.js';
import { dayAndTime, useZone } from '../words/times.js';
import './alarm.css';
import { alarmAddress, shapeOf, stateInWords } from './alarm-words.js';
import { Answer } from './answer.js';
import { History } from './history.js';
import { PlaceDrawn } from './place-drawn.js';
import { knownAt, ThenAndNow } from './then-and-now.js';
import { Todo } from './todo.js';
import { Why } from './why.js';

export default function AlarmPage() {
  const id = useRoute().params['id'] ?? '';
  const path = `/api/alarms/${encodeURIComponent(id)}`;
  const seen = useSeen<AlarmStory>(path, { live: ['alarms'] });
  const story = seen.answer;
  if (story) useZone(story.timezone);
  useEffect(fetchAhead, []);
  return (
    <>
      <p>
        <a href="/alarms">{say('alarm.back')}</a>
      </p>
      <Title>{story ? `${story.bedName}: ${say(`alarm.${story.action}`)}` : say('alarm.title')}</Title>
      <Shown of={seen} thing={{ kind: 'alarm', id }}>
        {(answer) => <Opened story={answer} onDone={seen.again} />}
      </Shown>
    </>
  );
}

/** Whoever goes to the bed may have no network there: the form of the look is fetched now. */
function fetchAhead(): void {
  import('../jobs/inspect/inspect-page.js').catch(() => undefined);
}

function Opened({ story, onDone }: { story: AlarmStory; onDone: () => void }) {
  return (
    <div class="alarm">
      <What story={story} />
      <div class="buttons">
        <ButtonLink href={`/jobs/inspect/${story.bed}?alarm=${encodeURIComponent(story.id)}`}>
          {say('alarm.record')}
        </ButtonLink>
        <ButtonLink kind="quiet" href={`/beds/${story.bed}`}>
          {say('alarm.openBed', { bed: story.bedName })}
        </ButtonLink>
      </div>
      <Where story={story} />
      {story.clearedAt === null && !story.withdrawn ? <Todo story={story} /> : null}
      <Answer story={story} onDone={onDone} />
      <Why story={story} />
      <History story={story} />
      <p>
        <a href={`/api/alarms/${encodeURIComponent(story.id)}/cap`} download={`${story.id}.xml`}>
          {say('alarm.cap')}
        </a>
      </p>
    </div>
  );
}

function What({ story }: { story: AlarmStory }) {
  const shape = shapeOf(story);
  const { answer: bed } = useSeen<Bed>(`/api/beds/${story.bed}`, { live: ['readings'], bed: story.bed });
  return (
    <div class="card">
      <p>
        <span class="standing" data-stands={shape}>
          <StandingShape stands={shape} />
          {stateInWords(story)}
        </span>
      </p>
      <p lang={story.language}>
        <b>{withDegrees(story.text, [story.bedName])}</b>
      </p>
      {story.draft ? <p class="soft">{say('alarm.textDraft')}</p> : null}
      <ThenAndNow alarm={story} probes={bed?.probes} />
      <p>
        <Told>{story.meaning}</Told>
      </p>
      <p class="soft">
        {say('alarm.raised', { when: dayAndTime(story.raisedAt) })}
        {story.clearedAt ? ` · ${say('alarm.cleared', { when: dayAndTime(story.clearedAt) })}` : ''}
      </p>
      {story.withdrawn ? <Withdrawn successor={story.successor} /> : null}
    </div>
  );
}

function Withdrawn({ successor }: { successor: string | null }) {
  return (
    <Notice kind="plain">
      <p>{say('alarm.withdrawn')}</p>
      {successor ? (
        <p>
          <a href={alarmAddress(successor)}>{say('alarm.successor')}</a>
        </p>
      ) : null}
    </Notice>
  );
}

function Where({ story }: { story: AlarmStory }) {
  const { where, place, bed: id } = story;
  const { answer: bed } = useSeen<Bed>(`/api/beds/${id}`);
  return (
    <section aria-labelledby="where">
      <h2 id="where">{say('alarm.where')}</h2>
      {where ? <p lang={where.language}>{where.text}</p> : <p>{say('alarm.whereNone')}</p>}
      {place ? <p class="soft">{say('alarm.whereCm', inWholes(place))}</p> : null}
      {place ? <p class="soft">{say('alarm.whereThen', { when: dayAndTime(knownAt(story)) })}</p> : null}
      {bed && place ? <PlaceDrawn bed={bed} place={place} /> : null}
    </section>
  );
}

const inWholes = ({ x, y, depth, radius }: NonNullable<AlarmStory['place']>) => ({
  ...{ x: number(x), y: number(y), depth: number(depth), radius: number(radius) },
});
