/** The bed from above and in a cut along its length, with its probes; a tap puts the chosen probe there. */
import type { Block } from '../../../core/model/bed.js';
import { say } from '../../words/say.js';
import { DrawnProbe, type Marked } from './drawn-probe.js';

interface DrawingParts {
  readonly blocks: readonly Block[];
  readonly probes: readonly Marked[];
  readonly chosen: string | undefined;
  /** Whole cm. */
  readonly onTap: (place: { x: number; y: number } | { x: number; depth: number }) => void;
}

/** Width of a drawing in units of its text's height: it is read at 300 px. */
const TEXTS_WIDE = 22;

export function BedDrawing({ blocks, probes, chosen, onTap }: DrawingParts) {
  const length = Math.max(...blocks.map(({ right }) => right));
  const width = Math.max(...blocks.map(({ far }) => far));
  const deep = Math.max(...blocks.map(({ bottom }) => bottom));
  const text = length / TEXTS_WIDE;
  return (
    <div class="drawings">
      <View
        title={say('fill.fromAbove')}
        label={say('fill.fromAboveLabel', { length, width })}
        {...{ length, height: width, text }}
        onTap={(x, y) => onTap({ x, y })}
        shapes={blocks.map(({ left, right, near, far }) => ({ left, right, top: near, bottom: far }))}
      >
        {probes.map((probe) => (
          <DrawnProbe key={probe.id} probe={probe} at={probe.y} text={text} isChosen={probe.id === chosen} />
        ))}
      </View>
      <View
        title={say('fill.cut')}
        label={say('fill.cutLabel', { length, deep })}
        {...{ length, height: deep, text }}
        onTap={(x, depth) => onTap({ x, depth })}
        shapes={blocks}
      >
        {probes.map((probe) => (
          <DrawnProbe
            key={probe.id}
            probe={probe}
            at={probe.depth}
            text={text}
            isChosen={probe.id === chosen}
          />
        ))}
      </View>
    </div>
  );
}

interface Shape {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

interface ViewParts {
  readonly title: string;
  readonly label: string;
  /** cm. */
  readonly length: number;
  readonly height: number;
  readonly text: number;
  readonly shapes: readonly Shape[];
  readonly onTap: (across: number, down: number) => void;
  readonly children: preact.ComponentChildren;
}

function View({ title, label, length, height, text, shapes, onTap, children }: ViewParts) {
  const tap = (event: MouseEvent): void => {
    const place = placeOf(event, event.currentTarget as SVGSVGElement);
    const isIn = shapes.some(
      ({ left, right, top, bottom }) =>
        place.across >= left && place.across <= right && place.down >= top && place.down <= bottom,
    );
    if (isIn) onTap(place.across, place.down);
  };
  return (
    <figure>
      <figcaption>{title}</figcaption>
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: the fields beside it do the same by keys */}
      <svg
        role="img"
        aria-label={label}
        viewBox={`${-text} ${-1.6 * text} ${length + 2 * text} ${height + 3.2 * text}`}
        font-size={text}
        onClick={tap}
      >
        {shapes.map(({ left, right, top, bottom }) => (
          <rect
            key={`${left} ${top}`}
            class="sand"
            x={left}
            y={top}
            width={right - left}
            height={bottom - top}
          />
        ))}
        <text x={0} y={-0.5 * text}>
          0
        </text>
        <text x={length} y={-0.5 * text} text-anchor="end">
          {say('parts.centimetres', { value: length })}
        </text>
        <text x={0} y={height + 1.2 * text}>
          {say('parts.centimetres', { value: height })}
        </text>
        {children}
      </svg>
    </figure>
  );
}

/** Where a drawing was tapped, whole cm. */
function placeOf(event: MouseEvent, svg: SVGSVGElement): { across: number; down: number } {
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM()?.inverse());
  return { across: Math.round(point.x), down: Math.round(point.y) };
}
