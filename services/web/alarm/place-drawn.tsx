/** The bed from above and cut along its length, with its probes and the place to look at. Lengths are in cm. */
import type { Place } from '../api/types/alarm.js';
import type { Bed } from '../api/types/bed.js';
import { centimetres, number } from '../words/numbers.js';
import { say } from '../words/say.js';

/** Around the drawing, for letters and a place that reaches over the wall. */
const MARGIN_cm = 18;

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
  const box = [
    ...[(left ?? 0) - MARGIN_cm, (top ?? 0) - MARGIN_cm],
    ...[right - (left ?? 0) + 2 * MARGIN_cm, bottom - (top ?? 0) + 2 * MARGIN_cm],
  ];
  return (
    <svg viewBox={box.join(' ')} role="img" aria-label={view.label}>
      {view.blocks.map(([x, y, width, height]) => (
        <rect key={`${x} ${y} ${width}`} class="sand" x={x} y={y} width={width} height={height} />
      ))}
      {bed.probes.map((probe) => (
        <ProbeMark key={probe.id} at={view.at(probe)} id={probe.id} />
      ))}
      {place ? <Spot at={view.at(place)} radius={place.radius} /> : null}
      <text x={left} y={(top ?? 0) - 6}>
        {say('alarm.corner')}
      </text>
      <text x={right} y={bottom + 13} text-anchor="end">
        {centimetres(right - (left ?? 0))}
      </text>
    </svg>
  );
}

type At = { readonly at: readonly [right: number, down: number] };

const ProbeMark = ({ at: [x, y], id }: At & { id: string }) => (
  <g>
    <circle cx={x} cy={y} r="2.5" fill="currentColor" />
    <text x={x + 4} y={y - 3}>
      {id}
    </text>
  </g>
);

const Spot = ({ at: [x, y], radius }: At & { radius: number }) => (
  <g>
    <circle class="spot" cx={x} cy={y} r={radius} stroke-width="1.5" />
    <path d={`M${x - 5} ${y - 5}l10 10m0-10-10 10`} stroke="currentColor" stroke-width="2" />
  </g>
);
