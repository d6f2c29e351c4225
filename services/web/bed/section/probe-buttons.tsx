/** The probes of a drawing as buttons over their marks: one stop for the tabulator, arrows go from probe to probe. */
import { useRef, useState } from 'preact/hooks';
import { say } from '../../words/say.js';
import type { Box } from './labels.js';
import { HALF as MARK, type ProbeDrawn } from './marks.js';
import { probeName } from './probe-words.js';
import type { ViewName } from './views.js';

/** Half of a button, points: 44 across. */
const HALF = 22;

const MOVES: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };

export function ProbeButtons(parts: {
  view: ViewName;
  drawn: readonly ProbeDrawn[];
  opened: string | undefined;
  onOpen: (probe: string) => void;
}) {
  const { view, drawn, opened, onOpen } = parts;
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
          style={{ left: px(one.x - HALF), top: px(one.y - HALF) }}
          onFocus={() => setStop(index)}
          onKeyDown={(event) => move(event, index)}
          onClick={(event) => onOpen(meant(event, drawn, one).probe.id)}
        >
          <span
            style={{
              left: px(one.label.left - one.x + HALF),
              top: px(one.label.top - one.y + HALF),
              ...{ width: px(one.label.width), height: px(one.label.height) },
            }}
          />
        </button>
      ))}
    </fieldset>
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
