/**
 * The residuals of a calibration over its indicated values, as shapes on a plane: the page and the PDF file draw the
 * same ones.
 *
 * Black on white, every kind of point by its own shape. x goes to the right, y downwards.
 */
import type { Calibration } from '../model/calibration-record.js';
import { legendOf, lineThrough, type Position, type Shape } from './plot-shapes.js';
import { axisShapes, FIELD, type Scales, scalesOf } from './residual-plot-axes.js';
import { type BandEdge, bandOf, describe, type PlottedPoint, plottedPoints } from './residual-plot-points.js';
import { signedText } from './rounding.js';
import { UNIT } from './words.js';

export interface PlotGeometry {
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
  /** For whoever cannot see it. */
  readonly title: string;
  readonly description: string;
}

const WIDTH = 640;
const HEIGHT = 400;

/** Half the cross bar of an error bar, and half the band over a single value. */
const BAR = 4;

/**
 * Shapes of the residual plot.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a fit that speaks of points that the record does not have
 */
export function plotGeometry(record: Calibration): PlotGeometry {
  const points = plottedPoints(record);
  const band = bandOf(record);
  const scales = scalesOf(points, band);
  return {
    width: WIDTH,
    height: HEIGHT,
    shapes: [
      ...bandShapes(band, scales),
      ...axisShapes(record.quantity, scales),
      ...points.flatMap((point) => pointShapes(point, scales, UNIT[record.quantity])),
      ...legendOf({ x: FIELD.left, y: FIELD.bottom + 60 }),
    ],
    title: `Residuals of calibration ${record.id}`,
    description: describe(record, points),
  };
}

function bandShapes(band: readonly BandEdge[], { x, y }: Scales): Shape[] {
  const asides = band.length === 1 ? [-BAR, BAR] : [0];
  const edge = (sign: 1 | -1): Position[] =>
    band.flatMap(({ indicated, expanded }) =>
      asides.map((aside) => ({ x: x(indicated) + aside, y: y(sign * expanded) })),
    );
  const [upper, lower] = [edge(1), edge(-1)];
  return [
    { kind: 'area', points: [...upper, ...[...lower].reverse()] },
    { kind: 'line', points: upper, dashed: true },
    { kind: 'line', points: lower, dashed: true },
  ];
}

function pointShapes(point: PlottedPoint, scales: Scales, unit: string): Shape[] {
  const { number, indicated, residual, uncertainty, kind } = point;
  const x = scales.x(indicated);
  if (!(Math.abs(residual) + uncertainty <= scales.half)) {
    const up = residual > 0;
    const edge = up ? FIELD.top : FIELD.bottom;
    const value = `${number}: ${signedText(residual, uncertainty)} ${unit}`;
    return [
      { kind: 'mark', mark: up ? 'beyond-above' : 'beyond-below', at: { x, y: edge + (up ? 8 : -8) } },
      beside(value, { x, y: edge + (up ? 13 : -4) }),
    ];
  }
  const at = { x, y: scales.y(residual) };
  return [
    ...errorBar(x, scales.y(residual + uncertainty), scales.y(residual - uncertainty)),
    { kind: 'mark', mark: kind, at },
    ...(kind === 'used' ? [] : [beside(number, { x, y: at.y - 7 })]),
  ];
}

/** Beside a mark, on the side where there is room. */
function beside(text: string, { x, y }: Position): Shape {
  const isLeft = x > (FIELD.left + FIELD.right) / 2;
  return {
    kind: 'text',
    text,
    at: { x: x + (isLeft ? -8 : 8), y },
    anchor: isLeft ? 'end' : 'start',
    turned: false,
  };
}

const errorBar = (x: number, top: number, bottom: number): Shape[] => [
  lineThrough({ x, y: top }, { x, y: bottom }),
  lineThrough({ x: x - BAR, y: top }, { x: x + BAR, y: top }),
  lineThrough({ x: x - BAR, y: bottom }, { x: x + BAR, y: bottom }),
];
