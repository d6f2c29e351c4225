/** What is there without any probe: ground or boards, sand, roots, and the scale in centimetres. */
import type { Block } from '../../../core/model/bed.js';
import { say } from '../../words/say.js';
import { EDGE, type Frame, marksOf } from './frame.js';
import type { RootDrawn } from './roots-laid.js';
import { isCut, type Point, reachOf } from './views.js';

/** Patterns are known by their ids all over the page: once is enough. */
export function Patterns() {
  return (
    <svg class="patterns" width="0" height="0" aria-hidden="true">
      <defs>
        <pattern id="cut-sand" width="9" height="9" patternUnits="userSpaceOnUse">
          <circle class="sand-grain" cx="2" cy="2" r="0.8" />
          <circle class="sand-grain" cx="6.5" cy="6.5" r="0.8" />
        </pattern>
        <pattern id="cut-ground" width="9" height="9" patternUnits="userSpaceOnUse">
          <path class="ground-hatch" d="M-1 10 10-1" />
        </pattern>
        <pattern id="cut-seen" width="10" height="10" patternUnits="userSpaceOnUse">
          <rect class="sight-ground" data-sight="seen" width="10" height="10" />
        </pattern>
        <pattern id="cut-perhaps" width="12" height="12" patternUnits="userSpaceOnUse">
          <rect class="sight-ground" data-sight="perhaps" width="12" height="12" />
          <path class="sight-hatch" d="M0 6H12" />
        </pattern>
        <pattern id="cut-blind" width="7" height="7" patternUnits="userSpaceOnUse">
          <rect class="sight-ground" data-sight="blind" width="7" height="7" />
          <path class="sight-hatch" d="M-1 8 8-1M-1-1 8 8" />
        </pattern>
      </defs>
    </svg>
  );
}

/** How far the ground around a pit is drawn, and how thick boards are, points. */
const AROUND = 10;
const BOARD = 5;

const rectOf = ({ x, y, view }: Frame, block: Block) => {
  const [left, right] = reachOf(block, view.right);
  const [top, bottom] = reachOf(block, view.down);
  return { x: x(left), y: y(top), width: x(right) - x(left), height: y(bottom) - y(top) };
};

export function BedDrawn(parts: {
  frame: Frame;
  blocks: readonly Block[];
  kind: 'box' | 'stepped-pit';
  cut: Point;
  roots: readonly RootDrawn[];
}) {
  const { frame, blocks, kind, cut, roots } = parts;
  const { x, y, view, scale } = frame;
  const isInCut = (block: Block): boolean => isCut(view, block, cut);
  return (
    <g>
      <Around frame={frame} kind={kind} />
      {blocks.map((block) => (
        <g key={block.top} class={isInCut(block) ? 'sand' : 'sand-off'}>
          <rect {...rectOf(frame, block)} class="sand-ground" />
          <rect {...rectOf(frame, block)} class="sand-grains" />
        </g>
      ))}
      {roots.map(({ right, down, halfRight, halfDown }) => (
        <ellipse
          key={`${right} ${down}`}
          class="root"
          cx={x(right)}
          cy={y(down)}
          rx={halfRight * scale}
          ry={halfDown * scale}
        />
      ))}
    </g>
  );
}

function Around({ frame, kind }: { frame: Frame; kind: 'box' | 'stepped-pit' }) {
  const { x, y, view, right_cm, down_cm } = frame;
  const [left, right, top, bottom] = [x(right_cm[0]), x(right_cm[1]), y(down_cm[0]), y(down_cm[1])];
  const reach = kind === 'box' ? BOARD : AROUND;
  const above = view.name === 'above' ? reach : 0;
  return (
    <rect
      class={kind === 'box' ? 'boards' : 'ground'}
      x={left - reach}
      y={top - above}
      width={right - left + 2 * reach}
      height={bottom - top + above + reach}
    />
  );
}

const CM = { along: 'bed.cmAlong', across: 'bed.cmAcross', above: 'bed.cmAbove' } as const;

/** Marks of both directions, and which wall is where. */
export function Scale({ frame }: { frame: Frame }) {
  const { x, y, view, right_cm, down_cm, scale } = frame;
  const below = y(down_cm[1]) + AROUND;
  const left = x(right_cm[0]) - AROUND;
  return (
    <g>
      {marksOf(right_cm, scale).map((cm) => (
        <g key={cm}>
          <path class="scale-mark" d={`M${x(cm)} ${below}v5`} />
          <text class="scale-text" x={x(cm)} y={below + 17} text-anchor="middle">
            {cm}
          </text>
        </g>
      ))}
      {marksOf(down_cm, scale).map((cm) => (
        <g key={cm}>
          <path class="scale-mark" d={`M${left} ${y(cm)}h-5`} />
          <text class="scale-text" x={left - 8} y={y(cm) + 4} text-anchor="end">
            {cm}
          </text>
        </g>
      ))}
      <text class="scale-text" x={EDGE.left} y={below + 31}>
        {say(CM[view.name])}
      </text>
    </g>
  );
}

/** The names of the walls: of those to the left and right at the top corners, seen from above of all four. */
export function Walls({ frame }: { frame: Frame }) {
  const { view, width, x, y, right_cm, down_cm, height } = frame;
  const isSides = view.name === 'across';
  const middle = x((right_cm[0] + right_cm[1]) / 2);
  return (
    <g>
      <text class="scale-text" x={2} y={13}>
        {say(isSides ? 'bed.northWestSide' : 'bed.northWestEnd')}
      </text>
      <text class="scale-text" x={width - 2} y={13} text-anchor="end">
        {say(isSides ? 'bed.farSide' : 'bed.farEnd')}
      </text>
      {view.name === 'above' ? (
        <>
          <text class="scale-text" x={middle} y={y(down_cm[0]) - 14} text-anchor="middle">
            {say('bed.northWestSide')}
          </text>
          <text class="scale-text" x={width - 2} y={height - 3} text-anchor="end">
            {say('bed.farSide')}
          </text>
        </>
      ) : null}
    </g>
  );
}
