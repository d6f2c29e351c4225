/** What will be left by month: the likely line in its band. The table under it says the same in numbers. */

import type { Band, Outlook } from '../../api/types/outlook.js';
import { HeightTicks } from '../../parts/height-ticks.js';
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { roundTicks } from './ticks.js';

const WIDE = 360;
const HIGH = 210;
const LEFT = 44;
const RIGHT = 12;
const TOP = 12;
const BOTTOM = 30;

export function LeftPlot({ outlook: { roots, months } }: { outlook: Outlook }) {
  const now: Band = { low: roots, likely: roots, high: roots };
  const points = [now, ...months.map(({ left }) => left)];
  const ticks = roundTicks(roots);
  const top = Math.max(1, ticks.at(-1) ?? 1);
  const x = (month: number): number => LEFT + (month / months.length) * (WIDE - LEFT - RIGHT);
  const y = (count: number): number => HIGH - BOTTOM - (count / top) * (HIGH - TOP - BOTTOM);
  const line = (of: (band: Band) => number): string[] =>
    points.map((band, month) => `${x(month).toFixed(1)} ${y(of(band)).toFixed(1)}`);
  const edge = [...line(({ high }) => high), ...line(({ low }) => low).reverse()];
  const last = months.at(-1)?.left ?? now;
  return (
    <svg
      class="left-plot"
      viewBox={`0 0 ${WIDE} ${HIGH}`}
      role="img"
      aria-label={say('outlook.plotLabel', {
        ...{ roots: number(roots), months: months.length },
        ...{ low: number(Math.floor(last.low)), high: number(Math.ceil(last.high)) },
      })}
    >
      <HeightTicks ticks={ticks} y={y} left={LEFT} right={WIDE - RIGHT} />
      <path class="band" d={`M${edge.join('L')}Z`} />
      <path class="likely" d={`M${line(({ likely }) => likely).join('L')}`} />
      {points.map(({ likely }, month) => (
        <g key={`month ${month + 0}`}>
          <circle class="dot" cx={x(month)} cy={y(likely)} r="3.5" />
          <text x={x(month)} y={HIGH - 10} text-anchor="middle">
            {month === 0 ? say('outlook.now') : number(month)}
          </text>
        </g>
      ))}
    </svg>
  );
}
