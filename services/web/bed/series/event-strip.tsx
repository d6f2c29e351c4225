/** What happened, as marks along the time axis of the plots; marks that would lie on one another are one. */
import { useId, useState } from 'preact/hooks';
import type { EventAnswer } from '../../api/types/series.js';
import { say } from '../../words/say.js';
import { clusters } from './clusters.js';
import { familyOf, kindWords, SHAPES } from './event-kinds.js';
import { EventItems } from './event-list.js';
import { type SeriesModel, useDrawn } from './model.js';
import { LEFT_px, RIGHT_px } from './plot.js';

/** A target for a finger, px. */
const MARK_px = 44;

/** What a word beside a mark takes, px. */
const LETTER_px = 8;

interface StripParts {
  readonly model: SeriesModel;
  /** In any order. */
  readonly events: readonly EventAnswer[];
}

export function EventStrip({ model, events }: StripParts) {
  useDrawn(model);
  const id = useId();
  const [opened, setOpened] = useState<readonly EventAnswer[]>();
  const width = Math.max(1, model.width_px - LEFT_px - RIGHT_px);
  const { from, to } = model.view;
  const marks = clusters(
    events.map((event) => ({ event, x: (width * (Date.parse(event.at) - from)) / (to - from) })),
    { width, mark: MARK_px },
  );
  const open = (shown: readonly EventAnswer[]): void => {
    const isOpen = opened?.[0]?.id === shown[0]?.id && opened?.length === shown.length;
    setOpened(isOpen ? undefined : shown);
    const [newest] = shown;
    if (newest && !isOpen) model.point(Date.parse(newest.at));
  };
  return (
    <>
      <section class="strip" aria-label={say('series.strip')} style={{ marginInlineStart: `${LEFT_px}px` }}>
        {marks.map(({ left, x, room, events: here }) => (
          <Mark
            key={here[0]?.id}
            events={here}
            left={left}
            tick={x}
            room={room}
            controls={id}
            isOpen={opened?.[0]?.id === here[0]?.id}
            onOpen={() => open(here)}
          />
        ))}
      </section>
      <div id={id} class="strip-open">
        {opened ? <EventItems model={model} events={opened} /> : null}
      </div>
    </>
  );
}

interface MarkParts {
  readonly events: readonly EventAnswer[];
  readonly left: number;
  readonly tick: number;
  /** Up to the next mark, px. */
  readonly room: number;
  readonly controls: string;
  readonly isOpen: boolean;
  readonly onOpen: () => void;
}

function Mark({ events, left, tick, room, controls, isOpen, onOpen }: MarkParts) {
  const [first] = events;
  if (!first) return null;
  const isOne = events.length === 1;
  const words = isOne ? kindWords(first) : say('series.several', { count: events.length });
  const fits = room >= MARK_px + LETTER_px * words.length;
  return (
    <>
      <span class="strip-tick" style={{ insetInlineStart: `${tick}px` }} />
      <button
        type="button"
        class="strip-mark"
        data-family={gravest(events)}
        style={{ insetInlineStart: `${left}px`, minWidth: `${MARK_px}px` }}
        aria-label={words}
        aria-expanded={isOpen}
        aria-controls={controls}
        onClick={onOpen}
      >
        <svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
          <path d={SHAPES[gravest(events)]} />
        </svg>
        {fits ? words : isOne ? null : events.length}
      </button>
    </>
  );
}

/** Of several an alarm shows first, then what people found. */
const gravest = (events: readonly EventAnswer[]) =>
  (['alarm', 'look', 'filling', 'probe', 'stock'] as const).find((family) =>
    events.some((event) => familyOf(event) === family),
  ) ?? 'probe';
