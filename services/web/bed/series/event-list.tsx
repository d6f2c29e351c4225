/** What happened in the span that is shown, as a list: each with its time, its sentence and where it opens. */
import { useState } from 'preact/hooks';
import type { EventAnswer } from '../../api/types/series.js';
import { Button } from '../../parts/button.js';
import { Fold } from '../../parts/fold.js';
import { English } from '../../parts/notice.js';
import { say } from '../../words/say.js';
import { dayAndTime } from '../../words/times.js';
import { addressOf } from './event-address.js';
import { familyOf, kindWords, SHAPES } from './event-kinds.js';
import { type SeriesModel, useSettled } from './model.js';

interface ListParts {
  readonly model: SeriesModel;
  readonly events: readonly EventAnswer[];
}

/** Events shown before more are asked for. */
const AT_ONCE = 10;

export function EventList({ model, events }: ListParts) {
  useSettled(model);
  const [most, setMost] = useState(AT_ONCE);
  const { from, to } = model.settledView;
  const here = events.filter(({ at }) => Date.parse(at) >= from && Date.parse(at) <= to);
  return (
    <Fold title={say('series.events', { count: here.length })}>
      {here.length === 0 ? <p>{say('series.noEvents')}</p> : null}
      <EventItems model={model} events={here.slice(0, most)} />
      {here.length > most ? (
        <Button kind="quiet" onPress={() => setMost(most + AT_ONCE)}>
          {say('parts.more')}
        </Button>
      ) : null}
    </Fold>
  );
}

export function EventItems({ model, events }: ListParts) {
  return (
    <ol class="series-events">
      {events.map((event) => (
        <li key={event.id}>
          <svg viewBox="0 0 16 16" width="20" height="20" aria-hidden="true" data-family={familyOf(event)}>
            <path d={SHAPES[familyOf(event)]} />
          </svg>
          <div>
            <p>
              <b>{kindWords(event)}</b>, <time dateTime={event.at}>{dayAndTime(event.at)}</time>
            </p>
            <p>
              <English>{event.text}</English>
            </p>
            <div class="buttons">
              <Opens model={model} event={event} />
            </div>
          </div>
        </li>
      ))}
    </ol>
  );
}

function Opens({ model, event }: { model: SeriesModel; event: EventAnswer }) {
  const address = addressOf(model.site.bed, event);
  return (
    <>
      <Button
        kind="quiet"
        label={say('series.pointAt', { what: kindWords(event) })}
        onPress={() => goTo(model, event)}
      >
        {say('series.showThere')}
      </Button>
      {address ? (
        <a class="button" data-kind="quiet" href={address.href} {...(address.leaves && { target: '_self' })}>
          {say(address.word)}
        </a>
      ) : null}
    </>
  );
}

/** Brings it into view and points at it. */
function goTo(model: SeriesModel, { at }: EventAnswer): void {
  const time = Date.parse(at);
  const { from, to } = model.view;
  const half = (to - from) / 2;
  if (!(time >= from && time <= to)) model.show({ from: time - half, to: time + half });
  model.point(time);
}
