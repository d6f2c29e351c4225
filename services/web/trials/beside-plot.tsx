/** The picture: a line a treatment, told apart by mark and stroke as well as colour, with bars across beds. */

import type { CurvePoint, Curves, CurvesBy, CurvesOf } from '../api/types/trial.js';
import { roundTicks } from '../jobs/outlook/ticks.js';
import { HeightTicks } from '../parts/height-ticks.js';
import { number } from '../words/numbers.js';
import { say } from '../words/say.js';
import { dayAndMonth } from '../words/times.js';

const WIDE = 360;
const HIGH = 230;
/** Room for a number with its unit. */
const LEFT = 52;
const RIGHT = 12;
const TOP = 10;
const BOTTOM = 28;

/** Marks and bars along a line, at the most: more of them run into each other. */
const MARKED = 10;
const STROKES = ['', '7 3', '2 3', '9 3 2 3'] as const;
const COLOURS = 4;

const UNITS: Readonly<Record<CurvesOf, (value: number) => string>> = {
  loss: (value) => say('trials.percent', { value: number(value) }),
  excess: (value) => say('parts.degrees', { value: number(value) }),
};

interface PlotParts {
  readonly curves: Curves;
  readonly of: CurvesOf;
  readonly by: CurvesBy;
}

export function BesidePlot({ curves: { treatments }, of, by }: PlotParts) {
  const points = treatments.flatMap((one) => one.points);
  const times = points.map(({ time }) => time);
  const [from, to] = [by === 'filling' ? 0 : Math.min(...times), Math.max(...times)];
  const highest = Math.max(of === 'loss' ? 10 : 1, ...points.map(({ mean, high }) => high ?? mean));
  const lowest = of === 'loss' ? 0 : Math.min(0, ...points.map(({ mean, low }) => low ?? mean));
  const ticks = [...(lowest < 0 ? [Math.floor(lowest)] : []), ...roundTicks(highest)];
  const [bottom, top] = [ticks[0] ?? 0, ticks.at(-1) ?? 1];
  const x = (time: number): number => LEFT + ((time - from) / Math.max(1, to - from)) * (WIDE - LEFT - RIGHT);
  const y = (value: number): number =>
    HIGH - BOTTOM - ((Math.max(bottom, value) - bottom) / (top - bottom)) * (HIGH - TOP - BOTTOM);
  return (
    <figure class="beside">
      <svg viewBox={`0 0 ${WIDE} ${HIGH}`} role="img" aria-label={labelOf(treatments, of)}>
        <HeightTicks ticks={ticks} y={y} left={LEFT} right={WIDE - RIGHT} textOf={UNITS[of]} />
        {timeTicks(from, to, by).map((time, at, all) => (
          <text key={time} x={x(time)} y={HIGH - 9} text-anchor={at === all.length - 1 ? 'end' : 'middle'}>
            {by === 'filling' ? number(time) : dayAndMonth(time)}
          </text>
        ))}
        {treatments.map(({ treatment, points: own }, at) => (
          <Line key={treatment} points={own} at={at} of={treatments.length} x={x} y={y} />
        ))}
      </svg>
      <figcaption>
        <ul class="beside-legend">
          {treatments.map(({ treatment }, at) => (
            <li key={treatment}>
              <svg viewBox="0 0 40 14" width="40" height="14" aria-hidden="true">
                <g class={colourOf(at)}>
                  <path class="line" d="M0 7L40 7" stroke-dasharray={strokeOf(at)} />
                  <Mark at={at} x={20} y={7} />
                </g>
              </svg>
              {treatment}
            </li>
          ))}
        </ul>
      </figcaption>
    </figure>
  );
}

function timeTicks(from: number, to: number, by: CurvesBy): number[] {
  if (by === 'filling') return roundTicks(to).filter((time) => time <= to);
  return [0, 1, 2, 3].map((part) => from + (part / 3) * (to - from));
}

const labelOf = (treatments: Curves['treatments'], of: CurvesOf): string =>
  say('trials.plotLabel', {
    what: say(of === 'loss' ? 'trials.loss' : 'trials.excess'),
    ends: treatments
      .flatMap(({ treatment, points }) => {
        const last = points.at(-1);
        return last ? [say('trials.plotEnd', { treatment, value: number(last.mean, 1) })] : [];
      })
      .join('; '),
  });

const colourOf = (at: number): string => `treatment-${(at % COLOURS) + 1}`;
const strokeOf = (at: number): string => STROKES[at % STROKES.length] ?? '';

interface LineParts {
  readonly points: readonly CurvePoint[];
  readonly at: number;
  readonly of: number;
  readonly x: (time: number) => number;
  readonly y: (value: number) => number;
}

function Line({ points, at, of, x, y }: LineParts) {
  const path = points.map(({ time, mean }) => `${x(time).toFixed(1)} ${y(mean).toFixed(1)}`);
  const every = Math.max(1, Math.ceil(points.length / MARKED));
  const aside = (at - (of - 1) / 2) * 3;
  return (
    <g class={colourOf(at)}>
      {path.length > 0 ? (
        <path class="line" d={`M${path.join('L')}`} stroke-dasharray={strokeOf(at)} />
      ) : null}
      {points
        .filter((_, nth) => nth % every === 0 || nth === points.length - 1)
        .map(({ time, mean, low, high }) => (
          <g key={time}>
            {low === null || high === null ? null : (
              <line class="bar" x1={x(time) + aside} x2={x(time) + aside} y1={y(low)} y2={y(high)} />
            )}
            <Mark at={at} x={x(time) + aside} y={y(mean)} />
          </g>
        ))}
    </g>
  );
}

/** Disc, diamond, square, triangle. */
function Mark({ at, x, y }: { at: number; x: number; y: number }) {
  const shape = at % 4;
  if (shape === 0) return <circle class="mark" cx={x} cy={y} r="3.5" />;
  if (shape === 1)
    return <path class="mark" d={`M${x} ${y - 5}L${x + 5} ${y}L${x} ${y + 5}L${x - 5} ${y}Z`} />;
  if (shape === 2) return <rect class="mark" x={x - 3.5} y={y - 3.5} width="7" height="7" />;
  return <path class="mark" d={`M${x} ${y - 5}L${x + 5} ${y + 4}L${x - 5} ${y + 4}Z`} />;
}
