/**
 * The probes of a drawing as buttons over their marks: one stop for the tabulator, arrows go from probe to probe. Every
 * drawing shows the same probes: to those who hear them they are told in one, in the others they are there for a finger.
 */
import { useRef, useState } from 'preact/hooks';
import { say } from '../../words/say.js';
import type { Box } from './labels.js';
import { HALF as MARK, type ProbeDrawn } from './marks.js';
import { probeName } from './probe-words.js';
import type { ViewName } from './views.js';

/** Half of a button, points: 44 across. */
const HALF = 22;

/** The drawing whose probes are told. */
export const TOLD: ViewName = 'along';

const MOVES: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };

interface ButtonsParts {
  readonly view: ViewName;
  readonly drawn: readonly ProbeDrawn[];
  readonly opened: string | undefined;
  readonly onOpen: (probe: string) => void;
}

export const ProbeButtons = (parts: ButtonsParts) =>
  parts.view === TOLD ? <Told {...parts} /> : <Untold {...parts} />;

function Told({ view, drawn, opened, onOpen }: ButtonsParts) {
  const group = useRef<HTMLFieldSetElement>(null);
  const [stop, setStop] = useState(0);
  const current = Math.min(stop, drawn.length - 1);
  const move = (event: KeyboardEvent, index: number): void => {
    const by = MOVES[event.key];
    if (by === undefined) return;
    event.preventDefault();
    const next = (index + by + drawn.length) % drawn.length;
    group.current?.querySelectorAll('button')[next]?.focus();
  };
  return (
    <fieldset ref={group} class="probe-buttons">
      <legend class="aloud">{say('bed.probesOf')}</legend>
      {drawn.map((one, index) => (
        <button
          key={one.probe.id}
          id={buttonId(view, one.probe.id)}
          type="button"
          tabIndex={index === current ? 0 : -1}
          aria-label={probeName(one.probe)}
          aria-pressed={opened === one.probe.id}
          style={placeOf(one)}
          onFocus={() => setStop(index)}
          onKeyDown={(event) => move(event, index)}
          onClick={(event) => onOpen(meant(event, drawn, one).probe.id)}
        >
          <Label of={one} />
        </button>
      ))}
    </fieldset>
  );
}

function Untold({ view, drawn, onOpen }: ButtonsParts) {
  return (
    <div class="probe-buttons" aria-hidden="true">
      {drawn.map((one) => (
        <button
          key={one.probe.id}
          id={buttonId(view, one.probe.id)}
          type="button"
          tabIndex={-1}
          style={placeOf(one)}
          // What is hidden from those who hear must not take the focus.
          onMouseDown={(event) => event.preventDefault()}
          onClick={(event) => onOpen(meant(event, drawn, one).probe.id)}
        >
          <Label of={one} />
        </button>
      ))}
    </div>
  );
}

const placeOf = ({ x, y }: ProbeDrawn) => ({ left: px(x - HALF), top: px(y - HALF) });

/** A tap on the label counts, too. */
function Label({ of: { x, y, label } }: { of: ProbeDrawn }) {
  return (
    <span
      style={{
        ...{ left: px(label.left - x + HALF), top: px(label.top - y + HALF) },
        ...{ width: px(label.width), height: px(label.height) },
      }}
    />
  );
}

const px = (points: number): string => `${points}px`;

export const buttonId = (view: string, probe: string): string => `probe-${view}-${probe}`;

/** Where buttons overlap it is the place of the tap that counts: on a mark, on a label, else the nearest mark. */
function meant(event: MouseEvent, drawn: readonly ProbeDrawn[], own: ProbeDrawn): ProbeDrawn {
  const sheet = (event.currentTarget as HTMLElement).closest('.cut-sheet')?.getBoundingClientRect();
  // A key or a voice presses the button itself.
  if (event.detail === 0 || !sheet) return own;
  const at = { x: event.clientX - sheet.left, y: event.clientY - sheet.top };
  const away = ({ x, y }: ProbeDrawn): number => Math.hypot(x - at.x, y - at.y);
  const nearest = drawn.reduce((best, one) => (away(one) < away(best) ? one : best), own);
  if (away(nearest) <= MARK) return nearest;
  return drawn.find(({ label }) => isWithin(label, at)) ?? nearest;
}

const isWithin = ({ left, top, width, height }: Box, { x, y }: { x: number; y: number }): boolean =>
  x >= left && x <= left + width && y >= top && y <= top + height;
