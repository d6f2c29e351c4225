/** Lines across a small plot with what each stands for, left of it. */
import { number } from '../words/numbers.js';

interface TicksParts {
  readonly ticks: readonly number[];
  /** Height of a value in the drawing. */
  readonly y: (value: number) => number;
  readonly left: number;
  readonly right: number;
  /** Of a tick's number, with its unit; the number alone where absent. */
  readonly textOf?: (tick: number) => string;
}

export function HeightTicks({ ticks, y, left, right, textOf = number }: TicksParts) {
  return (
    <>
      {ticks.map((tick) => (
        <g key={tick}>
          <line class={tick === 0 ? 'rule zero' : 'rule'} x1={left} x2={right} y1={y(tick)} y2={y(tick)} />
          <text x={left - 6} y={y(tick) + 4} text-anchor="end">
            {textOf(tick)}
          </text>
        </g>
      ))}
    </>
  );
}
