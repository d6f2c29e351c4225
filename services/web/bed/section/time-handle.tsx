/** The handle that goes back through the season. */
import { useEffect, useId, useState } from 'preact/hooks';
import type { BedEvent } from '../../api/types/event.js';
import { Button } from '../../parts/button.js';
import { say } from '../../words/say.js';
import { dayAndTime } from '../../words/times.js';
import { type Cursor, type Span, useLooked } from '../cursor.js';
import { EventMarks } from './event-marks.js';

const HOUR_ms = 3_600_000;
const DAY_h = 24;

/** While it plays: so far at a time, h, and rest between, ms. */
const PLAYED_h = 12;
const REST_ms = 1_200;

/** Hours of the season from its beginning; the last stands for what was measured last. */
const hoursOf = ({ from, to }: Span): number => Math.max(1, Math.ceil((to - 1 - from) / HOUR_ms));

interface HandleParts {
  readonly cursor: Cursor;
  readonly season: Span;
  readonly events: readonly BedEvent[];
}

export function TimeHandle({ cursor, season, events }: HandleParts) {
  const id = useId();
  const { at } = useLooked(cursor);
  const last = hoursOf(season);
  const hour = at === undefined ? last : Math.round((at - season.from) / HOUR_ms);
  const go = (to: number): void => {
    const next = Math.max(0, Math.min(last, to));
    cursor.lookAt(next === last ? undefined : season.from + next * HOUR_ms);
  };
  return (
    <div class="handle">
      <div class="handle-head">
        <label for={id}>{say('bed.handle')}</label>
        <output for={id}>{timeInWords(at, season)}</output>
      </div>
      <div class="handle-track">
        <EventMarks events={events} season={season} />
        <input
          id={id}
          type="range"
          min={0}
          max={last}
          step={1}
          value={hour}
          aria-valuetext={timeInWords(at, season)}
          aria-describedby={`${id}-keys`}
          onInput={({ currentTarget }) => go(Number(currentTarget.value))}
          onKeyDown={(event) => {
            const days = { PageUp: 1, PageDown: -1 }[event.key];
            if (days === undefined) return;
            event.preventDefault();
            go(hour + days * DAY_h);
          }}
        />
      </div>
      <p class="soft aloud" id={`${id}-keys`}>
        {say('bed.handleKeys')}
      </p>
      <fieldset class="handle-steps">
        <legend class="aloud">{say('bed.handleSteps')}</legend>
        <Button kind="quiet" label={say('bed.dayBack')} disabled={hour <= 0} onPress={() => go(hour - DAY_h)}>
          {say('bed.dayBackShort')}
        </Button>
        <Button kind="quiet" label={say('bed.hourBack')} disabled={hour <= 0} onPress={() => go(hour - 1)}>
          {say('bed.hourBackShort')}
        </Button>
        <Button kind="quiet" label={say('bed.hourOn')} disabled={hour >= last} onPress={() => go(hour + 1)}>
          {say('bed.hourOnShort')}
        </Button>
        <Button
          kind="quiet"
          label={say('bed.dayOn')}
          disabled={hour >= last}
          onPress={() => go(hour + DAY_h)}
        >
          {say('bed.dayOnShort')}
        </Button>
        <Button kind="quiet" disabled={hour >= last} onPress={() => go(last)}>
          {say('bed.toNow')}
        </Button>
        <Play hour={hour} last={last} go={go} />
      </fieldset>
    </div>
  );
}

function timeInWords(at: number | undefined, { from, to }: Span): string {
  const day = Math.floor(((at ?? to) - from) / HOUR_ms / DAY_h) + 1;
  if (at === undefined) return say('bed.latestTime', { time: dayAndTime(to - 1), day });
  return say('bed.lookedTime', { time: dayAndTime(at), day });
}

/** Goes through the season by itself, where whoever looks did not ask for less that moves; stops at the end. */
function Play({ hour, last, go }: { hour: number; last: number; go: (hour: number) => void }) {
  const moves = useMotion();
  const [plays, setPlays] = useState(false);
  useEffect(() => {
    if (!plays) return undefined;
    if (hour >= last || !moves) {
      setPlays(false);
      return undefined;
    }
    const timer = setTimeout(() => go(hour + PLAYED_h), REST_ms);
    return () => clearTimeout(timer);
  }, [plays, hour, last, moves]);
  if (!moves) return null;
  const press = (): void => {
    if (!plays && hour >= last) go(0);
    setPlays(!plays);
  };
  return (
    <Button kind="quiet" onPress={press}>
      {say(plays ? 'bed.stop' : 'bed.play')}
    </Button>
  );
}

function useMotion(): boolean {
  const [query] = useState(() => matchMedia('(prefers-reduced-motion: no-preference)'));
  const [moves, set] = useState(query.matches);
  useEffect(() => {
    const hear = (): void => set(query.matches);
    query.addEventListener('change', hear);
    return () => query.removeEventListener('change', hear);
  }, [query]);
  return moves;
}
