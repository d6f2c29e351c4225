/** What happened when: marks over the handle, and the same as a list that leads there. */
import type { BedEvent } from '../../api/types/event.js';
import { Fold } from '../../parts/fold.js';
import { English } from '../../parts/notice.js';
import { say, wordFor } from '../../words/say.js';
import { dayAndTime } from '../../words/times.js';
import type { Cursor, Span } from '../cursor.js';

/** Each kind by its shape, about the middle of a square of 12. */
const SHAPES = {
  alarm: 'M0-5 5 4H-5Z',
  look: 'M-5 0C-3-4 3-4 5 0 3 4-3 4-5 0Z',
  filling: 'M-5-4H5L0 5Z',
  probe: 'M-2-5H2V3L0 6-2 3Z',
  other: 'M-4-4H4V4H-4Z',
} as const;
type Shape = keyof typeof SHAPES;

function shapeOf(kind: string): Shape {
  if (kind.startsWith('alarm')) return 'alarm';
  if (kind.startsWith('probe') || kind === 'calibration') return 'probe';
  if (kind === 'inspection') return 'look';
  return kind === 'filling' ? 'filling' : 'other';
}

function EventShape({ kind }: { kind: string }) {
  const shape = shapeOf(kind);
  return (
    <svg width="14" height="14" viewBox="-7 -7 14 14" aria-hidden="true">
      <path class="event-shape" d={SHAPES[shape]} data-shape={shape} />
    </svg>
  );
}

export function EventMarks({ events, season: { from, to } }: { events: readonly BedEvent[]; season: Span }) {
  const shown = events.filter(({ at }) => Date.parse(at) >= from && Date.parse(at) < to);
  return (
    <div class="event-marks" aria-hidden="true">
      {shown.map(({ id, at, kind }) => (
        <span key={id} style={{ insetInlineStart: `${(100 * (Date.parse(at) - from)) / (to - from)}%` }}>
          <EventShape kind={kind} />
        </span>
      ))}
    </div>
  );
}

/** The list leads to the time of each. */
export function EventList(parts: { events: readonly BedEvent[]; season: Span; cursor: Cursor }) {
  const { events, season, cursor } = parts;
  if (events.length === 0) return null;
  return (
    <Fold title={say('bed.events', { count: events.length })}>
      <ul class="events">
        {events.map((event) => (
          <li key={event.id}>
            <EventShape kind={event.kind} />
            <div>
              <b>{wordFor('bed', `event-${event.kind}`) ?? event.kind}</b>{' '}
              <EventTime event={event} season={season} cursor={cursor} />
              <p>
                <English>{event.text}</English>
              </p>
            </div>
          </li>
        ))}
      </ul>
    </Fold>
  );
}

function EventTime({ event, season, cursor }: { event: BedEvent; season: Span; cursor: Cursor }) {
  const at = Date.parse(event.at);
  if (!(at >= season.from && at < season.to)) return <>{dayAndTime(at)}</>;
  return (
    <button type="button" class="as-link" onClick={() => cursor.lookAt(at)}>
      {say('bed.goTo', { time: dayAndTime(at) })}
    </button>
  );
}
