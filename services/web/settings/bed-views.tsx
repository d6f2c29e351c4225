/** A bed drawn small from its own steps: cut along its length, and from above. A tap says where a probe lies. */
import { type Block, blocksOf, type Step } from '../../core/model/bed.js';
import { say } from '../words/say.js';

/** cm. */
export interface Point {
  readonly x: number;
  readonly y: number;
  readonly depth: number;
}

export interface NamedPoint extends Point {
  readonly id: string;
}

interface BedViewsParts {
  readonly steps: readonly Step[];
  /** Where it is to lie; undefined where that is not said yet. */
  readonly here?: { readonly [Axis in keyof Point]: number | undefined };
  readonly others?: readonly NamedPoint[];
  /** Told of what a tap says, in whole centimetres; nothing can be tapped where it is absent. */
  readonly onTap?: ((point: Partial<Point>) => void) | undefined;
}

export function BedViews({ steps, here, others = [], onTap }: BedViewsParts) {
  const blocks = blocksOf(steps);
  if (!blocks.every(isDrawable)) return <p class="soft">{say('settings.drawnLater')}</p>;
  return (
    <div class="bed-views">
      <View
        name={say('settings.cut')}
        caption={say(onTap ? 'settings.cutTap' : 'settings.cutCaption')}
        boxes={blocks.map(({ left, right, top, bottom }) => [left, top, right, bottom])}
        here={[here?.x, here?.depth]}
        others={others.map(({ id, x, depth }) => ({ id, at: [x, depth] }))}
        onTap={onTap && ((x, depth) => onTap({ x, depth }))}
      />
      <View
        name={say('settings.above')}
        caption={say(onTap ? 'settings.aboveTap' : 'settings.aboveCaption')}
        boxes={blocks.map(({ left, right, near, far }) => [left, near, right, far])}
        here={[here?.x, here?.y]}
        others={others.map(({ id, x, y }) => ({ id, at: [x, y] }))}
        onTap={onTap && ((x, y) => onTap({ x, y }))}
      />
    </div>
  );
}

/** What is typed half has no sides yet. */
const isDrawable = ({ left, right, near, far, top, bottom }: Block): boolean =>
  right > left && far > near && bottom > top;

/** Left, top, right, bottom, cm. */
type Box = readonly [number, number, number, number];

interface ViewParts {
  readonly name: string;
  readonly caption: string;
  readonly boxes: readonly Box[];
  readonly here: readonly [number | undefined, number | undefined];
  readonly others: readonly { readonly id: string; readonly at: readonly [number, number] }[];
  readonly onTap: ((across: number, down: number) => void) | undefined;
}

function View({ name, caption, boxes, here, others, onTap }: ViewParts) {
  const [left, top, right, bottom] = around(boxes);
  const width = right - left;
  const margin = width * 0.06;
  const mark = width * 0.02;
  const [across, down] = here;
  const tap = (event: MouseEvent): void => {
    const svg = event.currentTarget as SVGSVGElement;
    const toCm = svg.getScreenCTM()?.inverse();
    if (!toCm) return;
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(toCm);
    onTap?.(Math.round(at.x), Math.round(at.y));
  };
  return (
    <figure>
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: the fields beside it say the same by keys */}
      <svg
        role="img"
        aria-label={name}
        data-tap={onTap ? 'yes' : 'no'}
        viewBox={`${left - margin} ${top - margin} ${width + 2 * margin} ${bottom - top + 2 * margin}`}
        onClick={onTap && tap}
      >
        {boxes.map(([x, y, x2, y2]) => (
          <rect key={`${x} ${y} ${x2} ${y2}`} class="sand" x={x} y={y} width={x2 - x} height={y2 - y} />
        ))}
        {others.map(({ id, at: [x, y] }) => (
          <g key={id}>
            <circle class="other" cx={x} cy={y} r={mark} />
            <text x={x + 1.4 * mark} y={y + mark} font-size={2.6 * mark}>
              {id}
            </text>
          </g>
        ))}
        {across === undefined ? null : <path class="cross" d={`M${across} ${top}V${bottom}`} />}
        {down === undefined ? null : <path class="cross" d={`M${left} ${down}H${right}`} />}
        {across === undefined || down === undefined ? null : (
          <circle class="here" cx={across} cy={down} r={1.4 * mark} />
        )}
      </svg>
      <figcaption>{caption}</figcaption>
    </figure>
  );
}

const around = (boxes: readonly Box[]): Box => [
  Math.min(...boxes.map(([left]) => left)),
  Math.min(...boxes.map(([, top]) => top)),
  Math.max(...boxes.map(([, , right]) => right)),
  Math.max(...boxes.map(([, , , bottom]) => bottom)),
];
