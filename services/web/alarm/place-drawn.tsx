/** The bed from above and cut along its length, with its probes and the place to look at. Lengths are in cm. */
import type { Place } from '../api/types/alarm.js';
import type { Bed } from '../api/types/bed.js';
import { type Box, placeLabels } from '../bed/section/labels.js';
import { centimetres, number } from '../words/numbers.js';
import { say } from '../words/say.js';

/** Around the drawing, for letters and a place that reaches over the wall. */
const MARGIN_cm = 18;
/** Of a probe's dot its half, and of letters their height. */
const DOT_cm = 2.5;
const LETTER_cm = 9;

interface DrawnParts {
  readonly bed: Bed;
  readonly place: Place | null;
}

interface View {
  readonly title: string;
  readonly label: string;
  /** Of a point: how far right and how far down it is drawn. */
  readonly at: (point: { x: number; y: number; depth: number }) => readonly [right: number, down: number];
  readonly blocks: readonly (readonly [right: number, down: number, width: number, height: number])[];
}

function viewFromAbove({ steps }: Bed, place: Place | null): View {
  const where = { x: number(place?.x ?? 0), y: number(place?.y ?? 0) };
  return {
    title: say('alarm.fromAbove'),
    label: say('alarm.drawnAbove', where),
    at: ({ x, y }) => [x, y],
    blocks: steps.map(({ x, y, length, width }) => [x, y, length, width]),
  };
}

function viewFromSide({ steps }: Bed, place: Place | null): View {
  let top = 0;
  const blocks = steps.map(({ x, length, height }) => {
    const block = [x, top, length, height] as const;
    top += height;
    return block;
  });
  return {
    title: say('alarm.fromSide'),
    label: say('alarm.drawnSide', { depth: number(place?.depth ?? 0) }),
    at: ({ x, depth }) => [x, depth],
    blocks,
  };
}

export function PlaceDrawn({ bed, place }: DrawnParts) {
  return (
    <div class="alarm-drawings">
      {[viewFromAbove(bed, place), viewFromSide(bed, place)].map((view) => (
        <figure key={view.title}>
          <figcaption>{view.title}</figcaption>
          <Drawing view={view} bed={bed} place={place} />
        </figure>
      ))}
    </div>
  );
}

function Drawing({ view, bed, place }: DrawnParts & { view: View }) {
  const [left, top] = [0, 1].map((axis) => Math.min(...view.blocks.map((block) => block[axis] ?? 0)));
  const right = Math.max(...view.blocks.map(([x, , width]) => x + width));
  const bottom = Math.max(...view.blocks.map(([, y, , height]) => y + height));
  const whole: Box = {
    ...{ left: (left ?? 0) - MARGIN_cm, top: (top ?? 0) - MARGIN_cm },
    ...{ width: right - (left ?? 0) + 2 * MARGIN_cm, height: bottom - (top ?? 0) + 2 * MARGIN_cm },
  };
  const middle = place ? view.at(place) : undefined;
  const names = namesPlaced(
    bed.probes.map((probe) => ({ id: probe.id, at: view.at(probe) })),
    { ...whole, top: top ?? 0, height: bottom - (top ?? 0) },
    middle,
  );
  return (
    <svg
      viewBox={`${whole.left} ${whole.top} ${whole.width} ${whole.height}`}
      role="img"
      aria-label={view.label}
    >
      {view.blocks.map(([x, y, width, height]) => (
        <rect key={`${x} ${y} ${width}`} class="sand" x={x} y={y} width={width} height={height} />
      ))}
      {place && middle ? <Spot at={middle} radius={place.radius} /> : null}
      {names.map((named) => (
        <ProbeMark key={named.id} named={named} />
      ))}
      <text x={left} y={(top ?? 0) - 6}>
        {say('alarm.corner')}
      </text>
      <text x={right} y={bottom + 13} text-anchor="end">
        {centimetres(right - (left ?? 0))}
      </text>
    </svg>
  );
}

interface Named {
  readonly id: string;
  readonly at: readonly [right: number, down: number];
}

/** Where the names of probes go: beside their dots, and over neither another nor the middle of the place. */
function namesPlaced(
  probes: readonly Named[],
  within: Box,
  place: Named['at'] | undefined,
): (Named & { readonly label: Box })[] {
  const cross = place ? [{ left: place[0] - 6, top: place[1] - 6, width: 12, height: 12 }] : [];
  const labels = placeLabels(
    probes.map(({ id, at: [x, y] }) => ({
      ...{ x, y, half: DOT_cm },
      ...{ width: 0.62 * LETTER_cm * (id.length + 1), height: LETTER_cm },
    })),
    within,
    cross,
  );
  return probes.map((probe, index) => ({ ...probe, label: labels[index] as Box }));
}

function ProbeMark({ named: { id, at, label } }: { named: Named & { readonly label: Box } }) {
  const [x, y] = at;
  const [middleX, middleY] = [label.left + label.width / 2, label.top + label.height / 2];
  // Beside its dot a name needs no line to it.
  const isFar = Math.hypot(middleX - x, middleY - y) > label.width / 2 + label.height + DOT_cm;
  return (
    <g>
      {isFar ? <path class="leader" d={`M${x} ${y}L${middleX} ${middleY}`} /> : null}
      <circle cx={x} cy={y} r={DOT_cm} fill="currentColor" />
      <text class="probe-name" x={middleX} y={label.top + 0.8 * label.height} text-anchor="middle">
        {id}
      </text>
    </g>
  );
}

const Spot = ({ at: [x, y], radius }: { at: Named['at']; radius: number }) => (
  <g>
    <circle class="spot" cx={x} cy={y} r={radius} stroke-width="1.5" />
    <path d={`M${x - 5} ${y - 5}l10 10m0-10-10 10`} stroke="currentColor" stroke-width="2" />
  </g>
);
