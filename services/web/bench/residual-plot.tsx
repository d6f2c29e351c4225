/** What a fit leaves over at each point, drawn and as a table. Kinds of points differ by shape. */
import type { Calibration } from '../api/types/bench.js';
import { Wide } from '../parts/wide.js';
import { say } from '../words/say.js';
import { bare, unitOf } from './measure.js';
import { type Plotted, plottedOf } from './plotted.js';

const WIDTH = 360;
const HEIGHT = 220;
const FIELD = { left: 52, right: 348, top: 12, bottom: 176 } as const;

/** Half the width of the bar at the end of an error bar, and of a mark. */
const BAR = 4;

export function ResidualPlot({ record }: { record: Calibration }) {
  const points = plottedOf(record);
  return (
    <>
      <Drawing record={record} points={points} />
      <PointTable record={record} points={points} />
    </>
  );
}

interface Parts {
  readonly record: Calibration;
  readonly points: readonly Plotted[];
}

function Drawing({ record, points }: Parts) {
  const { quantity, uncertainty } = record;
  const shown = points.map(({ indicated }) => indicated);
  const margin = Math.max((Math.max(...shown) - Math.min(...shown)) * 0.06, 0.5);
  const [low, high] = [Math.min(...shown) - margin, Math.max(...shown) + margin];
  const half = 1.15 * Math.max(uncertainty.expanded, ...fitted(points).map(reachOf));
  const x = (value: number): number =>
    FIELD.left + ((value - low) / (high - low)) * (FIELD.right - FIELD.left);
  const y = (value: number): number =>
    (FIELD.top + FIELD.bottom) / 2 - (value / half) * ((FIELD.bottom - FIELD.top) / 2);
  const line = (value: number, dashed: boolean) => (
    <line
      x1={FIELD.left}
      x2={FIELD.right}
      y1={y(value)}
      y2={y(value)}
      stroke-dasharray={dashed ? '5 4' : undefined}
    />
  );
  return (
    <svg
      class="residuals"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={say('bench.residualsLabel')}
    >
      {line(0, false)}
      {line(uncertainty.expanded, true)}
      {line(-uncertainty.expanded, true)}
      <line x1={FIELD.left} x2={FIELD.left} y1={FIELD.top} y2={FIELD.bottom} />
      {[uncertainty.expanded, 0, -uncertainty.expanded].map((value) => (
        <text key={value} x={FIELD.left - 6} y={y(value) + 4} text-anchor="end">
          {bare(quantity, value)}
        </text>
      ))}
      {points.map((one) => (
        <g key={one.number} class="mark" data-kind={one.kind}>
          {reachOf(one) > half ? (
            <OffScale at={x(one.indicated)} one={one} value={bare(quantity, one.residual)} />
          ) : (
            <>
              <path
                d={errorBar(x(one.indicated), y(one.residual + one.expanded), y(one.residual - one.expanded))}
              />
              <Mark at={[x(one.indicated), y(one.residual)]} kind={one.kind} />
            </>
          )}
        </g>
      ))}
      {apart(
        points.map(({ indicated }) => indicated).sort((one, other) => one - other),
        x,
      ).map((value) => (
        <text key={value} x={x(value)} y={FIELD.bottom + 16} text-anchor="middle">
          {bare(quantity, value)}
        </text>
      ))}
      <text x={(FIELD.left + FIELD.right) / 2} y={HEIGHT - 8} text-anchor="middle">
        {`${say('bench.indicated')}, ${unitOf(quantity)}`}
      </text>
    </svg>
  );
}

/** What the scale is for: one that was left out may lie many times further off. */
const fitted = (points: readonly Plotted[]): readonly Plotted[] =>
  points.filter(({ kind }) => kind !== 'left-out');

const reachOf = ({ residual, expanded }: Plotted): number => Math.abs(residual) + expanded;

/** Between the middles of two numbers under the axis: more than a number is wide. */
const NUMBER = 38;

/** Those under which there is room for a number; the others stand in the table. */
function apart(ascending: readonly number[], x: (value: number) => number): number[] {
  const kept: number[] = [];
  for (const value of ascending) {
    const last = kept.at(-1);
    if (last === undefined || x(value) - x(last) >= NUMBER) kept.push(value);
  }
  return kept;
}

/** At the edge that it lies beyond, with how far off it is. */
function OffScale({ at, one, value }: { at: number; one: Plotted; value: string }) {
  const isAbove = one.residual > 0;
  const y = isAbove ? FIELD.top + BAR : FIELD.bottom - BAR;
  return (
    <>
      <Mark at={[at, y]} kind={one.kind} />
      <text x={at - 2 * BAR} y={y + BAR} text-anchor="end">
        {value} {isAbove ? '↑' : '↓'}
      </text>
    </>
  );
}

const errorBar = (x: number, top: number, bottom: number): string =>
  `M${x} ${top}V${bottom}M${x - BAR} ${top}h${2 * BAR}M${x - BAR} ${bottom}h${2 * BAR}`;

/** A disc for what was used, a square for an outlier, a cross for what was left out. */
function Mark({ at: [x, y], kind }: { at: readonly [number, number]; kind: Plotted['kind'] }) {
  if (kind === 'used') return <circle class="filled" cx={x} cy={y} r={BAR} />;
  if (kind === 'outlier') return <rect x={x - BAR} y={y - BAR} width={2 * BAR} height={2 * BAR} />;
  return (
    <path d={`M${x - BAR} ${y - BAR}l${2 * BAR} ${2 * BAR}M${x - BAR} ${y + BAR}l${2 * BAR} ${-2 * BAR}`} />
  );
}

function PointTable({ record: { probe, quantity }, points }: Parts) {
  const unit = unitOf(quantity);
  return (
    <Wide label={say('bench.residualsOf', { probe })}>
      <table>
        <thead>
          <tr>
            <th scope="col">{say('bench.point')}</th>
            <th scope="col" class="number">{`${say('bench.indicated')}, ${unit}`}</th>
            <th scope="col" class="number">{`${say('bench.referenceColumn')}, ${unit}`}</th>
            <th scope="col" class="number">{`${say('bench.residual')}, ${unit}`}</th>
          </tr>
        </thead>
        <tbody>
          {points.map((one) => (
            <tr key={one.number}>
              <th scope="row">
                {one.label === '' ? one.number : one.label}
                {one.kind === 'outlier' ? ` (${say('bench.outlierMark')})` : ''}
                {one.kind === 'left-out' ? ` (${say('bench.leftOutMark', { reason: one.reason })})` : ''}
              </th>
              <td class="number">{bare(quantity, one.indicated)}</td>
              <td class="number">{bare(quantity, one.reference)}</td>
              <td class="number">{bare(quantity, one.residual, 1)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}
