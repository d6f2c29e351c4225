/** Treatments beside each other on one time axis, as shapes that a page and a PDF file draw alike: black on white, each treatment by its own mark. */
import { ticksOf } from '../calibration/plot-scale.js';
import { lineThrough, type Mark, type Position, type Shape } from '../calibration/plot-shapes.js';
import type { PlotGeometry } from '../calibration/residual-plot.js';

export interface FigurePoint {
  readonly x: number;
  readonly y: number;
  readonly low: number | null;
  readonly high: number | null;
}

export interface FigureLine {
  readonly name: string;
  readonly points: readonly FigurePoint[];
  /** A value stands until the next one, and falls then. */
  readonly stepped: boolean;
}

export interface FigureAbout {
  readonly title: string;
  readonly xLabel: string;
  readonly yLabel: string;
  /** Where the y axis at least reaches. */
  readonly from: number;
  readonly to: number;
}

const WIDTH = 640;
const HEIGHT = 330;
const FIELD = { left: 58, right: 486, top: 14, bottom: 282 } as const;
const LEGEND_x = 500;
const LEGEND_ROW = 15;
const NAME_characters = 17;

const MARKS: readonly Mark[] = ['used', 'outlier', 'beyond-above', 'left-out', 'beyond-below'];

/** Marks and intervals along a line, at the most: more of them run into each other. */
const MARKED = 12;

/** Intervals of treatments stand side by side. */
const ASIDE = 3;

/** @returns undefined where nothing is to be drawn */
export function treatmentsFigure(lines: readonly FigureLine[], about: FigureAbout): PlotGeometry | undefined {
  const points = lines.flatMap((line) => line.points);
  if (points.length === 0) return undefined;
  const right = Math.max(1, ...points.map(({ x }) => x));
  const ends = points.flatMap(({ y, low, high }) => [y, low ?? y, high ?? y]);
  const [least, most] = [Math.min(about.from, ...ends), Math.max(about.to, ...ends)];
  const x = (value: number): number => FIELD.left + ((FIELD.right - FIELD.left) * value) / right;
  const y = (value: number): number =>
    FIELD.bottom - ((FIELD.bottom - FIELD.top) * (value - least)) / (most - least);
  return {
    ...{ width: WIDTH, height: HEIGHT, title: about.title },
    description: describe(lines, about),
    shapes: [
      ...axes({ right, least, most }, { x, y }, about),
      ...lines.flatMap((line, at) => lineShapes(line, at, lines.length, { x, y })),
      ...lines.flatMap(legendRow),
    ],
  };
}

interface Scales {
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
}

function axes(
  { right, least, most }: { right: number; least: number; most: number },
  { x, y }: Scales,
  { xLabel, yLabel }: FigureAbout,
): Shape[] {
  const { left, bottom, top } = FIELD;
  return [
    lineThrough({ x: left, y: top }, { x: left, y: bottom }, { x: FIELD.right, y: bottom }),
    ...(least < 0 ? [zeroLine(y(0))] : []),
    ...ticksOf(0, right, 8).flatMap(({ value, text }) => [
      lineThrough({ x: x(value), y: bottom }, { x: x(value), y: bottom + 4 }),
      textAt(text, { x: x(value), y: bottom + 17 }, 'middle'),
    ]),
    ...ticksOf(least, most, 6).flatMap(({ value, text }) => [
      lineThrough({ x: left - 4, y: y(value) }, { x: left, y: y(value) }),
      textAt(text, { x: left - 7, y: y(value) + 4 }, 'end'),
    ]),
    textAt(xLabel, { x: (left + FIELD.right) / 2, y: bottom + 38 }, 'middle'),
    { ...textAt(yLabel, { x: 14, y: (top + bottom) / 2 }, 'middle'), turned: true },
  ];
}

const zeroLine = (y: number): Shape => ({
  kind: 'line',
  points: [
    { x: FIELD.left, y },
    { x: FIELD.right, y },
  ],
  dashed: true,
});

const textAt = (text: string, at: Position, anchor: 'start' | 'middle' | 'end') =>
  ({ kind: 'text', text, at, anchor, turned: false }) as const;

/** Beyond five treatments marks come again, on a dashed line. */
const isDashed = (at: number): boolean => Math.floor(at / MARKS.length) % 2 === 1;
const markOf = (at: number): Mark => MARKS[at % MARKS.length] as Mark;

function lineShapes({ points, stepped }: FigureLine, at: number, of: number, { x, y }: Scales): Shape[] {
  const placed = points.map((point) => ({ x: x(point.x), y: y(point.y) }));
  const path = placed.flatMap((point, nth) => {
    const before = placed[nth - 1];
    return stepped && before ? [{ x: point.x, y: before.y }, point] : [point];
  });
  const every = Math.max(1, Math.ceil(points.length / MARKED));
  const aside = (at - (of - 1) / 2) * ASIDE;
  const marked = points.filter((_, nth) => nth % every === every - 1 || points.length <= MARKED);
  return [
    { kind: 'line', points: path, dashed: isDashed(at) },
    ...marked.flatMap((point): Shape[] => {
      const middle = { x: x(point.x) + (stepped ? 0 : aside), y: y(point.y) };
      const bar =
        point.low === null || point.high === null
          ? []
          : [lineThrough({ x: middle.x, y: y(point.low) }, { x: middle.x, y: y(point.high) })];
      return [...bar, { kind: 'mark', mark: markOf(at), at: middle }];
    }),
  ];
}

function legendRow({ name }: FigureLine, at: number): Shape[] {
  const y = FIELD.top + 8 + at * LEGEND_ROW;
  const short = name.length > NAME_characters ? `${name.slice(0, NAME_characters - 1)}...` : name;
  return [
    {
      kind: 'line',
      points: [
        { x: LEGEND_x - 6, y },
        { x: LEGEND_x + 14, y },
      ],
      dashed: isDashed(at),
    },
    { kind: 'mark', mark: markOf(at), at: { x: LEGEND_x + 4, y } },
    textAt(short, { x: LEGEND_x + 20, y: y + 4 }, 'start'),
  ];
}

/** For whoever cannot see it: where each line ends. */
function describe(lines: readonly FigureLine[], { xLabel, yLabel }: FigureAbout): string {
  const ends = lines.flatMap(({ name, points }) => {
    const last = points.at(-1);
    return last ? [`${name} ends at ${last.y.toFixed(1)} at ${last.x.toFixed(0)}`] : [];
  });
  return `${yLabel} over ${xLabel}, a line for each treatment: ${ends.join('; ')}.`;
}
