import { describe, expect, test } from 'vitest';
import { correctionAt } from '../../../services/core/calibration/index.js';
import { ticksOf } from '../../../services/core/calibration/plot-scale.js';
import type { Mark, Position, Shape } from '../../../services/core/calibration/plot-shapes.js';
import { plotGeometry } from '../../../services/core/calibration/residual-plot.js';
import { residualPlotSvg } from '../../../services/core/calibration/residual-plot-svg.js';
import type { Calibration } from '../../../services/core/model/calibration-record.js';
import {
  BATH_POINTS,
  calibrationFrom,
  saltCalibration,
  someCalibration,
  unevenCalibration,
} from '../../support/a-calibration.js';
import { codeOf } from '../physics/refused.js';

/** The field that the points stand in; what lies below it is the legend. */
const BOTTOM = 306;

/** Last digits of the arithmetic, over 600 units. */
const TOLERANCE = 1e-9;

const marks = (record: Calibration, mark: Mark): Position[] =>
  plotGeometry(record).shapes.flatMap((shape) =>
    shape.kind === 'mark' && shape.mark === mark && shape.at.y <= BOTTOM ? [shape.at] : [],
  );

const texts = (record: Calibration): string[] =>
  plotGeometry(record).shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []));

const placesOf = (shape: Shape): readonly Position[] =>
  shape.kind === 'area' || shape.kind === 'line' ? shape.points : [shape.at];

/** Two texts on the axis tell where 0 and 0.01 lie. */
function upwards(record: Calibration): { readonly zero: number; readonly unit: number } {
  const ticks = plotGeometry(record).shapes.flatMap((shape) =>
    shape.kind === 'text' && shape.anchor === 'end' && /^-?[\d.]+$/.test(shape.text) && shape.at.x < 74
      ? [{ value: Number(shape.text), y: shape.at.y - 4 }]
      : [],
  );
  const [first, second] = ticks;
  if (first === undefined || second === undefined) throw new Error('no ticks');
  const unit = (second.y - first.y) / (second.value - first.value);
  return { zero: first.y - first.value * unit, unit };
}

describe('points', () => {
  test('stand at their residuals, right of each other as indicated', () => {
    const record = someCalibration();
    const { zero, unit } = upwards(record);
    const discs = marks(record, 'used');
    expect(discs).toHaveLength(7);
    discs.forEach(({ y }, at) => {
      expect(Math.abs(y - zero - (record.fit.residuals[at]?.residual ?? 1) * unit)).toBeLessThan(1e-6);
    });
    expect(unit).toBeLessThan(0);
    expect(discs.map(({ x }) => x)).toEqual([...discs.map(({ x }) => x)].sort((one, other) => one - other));
  });

  test('bars are one standard uncertainty of the measured correction: reference 0.04, mean of twelve 0.03', () => {
    const record = someCalibration();
    const { unit } = upwards(record);
    const [disc] = marks(record, 'used');
    const bar = plotGeometry(record).shapes.find(
      (shape) =>
        shape.kind === 'line' && shape.points.length === 2 && shape.points.every(({ x }) => x === disc?.x),
    );
    const [top, bottom] = bar === undefined ? [] : placesOf(bar);
    const length = ((top?.y ?? 0) - (bottom?.y ?? 0)) / unit;
    expect(length).toBeCloseTo(2 * Math.hypot(0.04, 0.03 / Math.sqrt(12)), 9);
  });

  test('an outlier and a left-out point have shapes and numbers of their own', () => {
    const record = unevenCalibration();
    expect(marks(record, 'used')).toHaveLength(5);
    expect(marks(record, 'outlier')).toHaveLength(1);
    expect(marks(record, 'left-out')).toHaveLength(1);
    expect(texts(record)).toEqual(expect.arrayContaining(['3', '6']));
  });

  test.each([
    [3, 'beyond-above', '6: +2.960 °C'],
    [-3, 'beyond-below', '6: -3.040 °C'],
  ] as const)('one left out by %d lies beyond the axis and is told by its value', (by, mark, text) => {
    const record = unevenCalibration(by);
    expect(marks(record, mark)).toHaveLength(1);
    expect(marks(record, 'left-out')).toHaveLength(0);
    expect(texts(record)).toContain(text);
    // It does not flatten the others: they still use more than a quarter of the field.
    const heights = [...marks(record, 'used'), ...marks(record, 'outlier')].map(({ y }) => y);
    expect(Math.max(...heights) - Math.min(...heights)).toBeGreaterThan(290 / 4);
  });
});

describe('band', () => {
  test('is U of the fit alone at the ends, and spans the range', () => {
    const record = someCalibration();
    const { unit } = upwards(record);
    const band = plotGeometry(record).shapes.find(({ kind }) => kind === 'area');
    const points = band === undefined ? [] : placesOf(band);
    const fitPart = correctionAt(record.fit, 4.12).components.find(({ name }) => name === 'fit');
    const height = ((points[0]?.y ?? 0) - (points.at(-1)?.y ?? 0)) / unit;
    expect(Math.abs(height - 4 * (fitPart?.standardUncertainty ?? 0))).toBeLessThan(TOLERANCE);
    const discs = marks(record, 'used').map(({ x }) => x);
    expect(points[0]?.x).toBeCloseTo(Math.min(...discs), 9);
    expect(Math.max(...points.map(({ x }) => x))).toBeCloseTo(Math.max(...discs), 9);
  });
});

describe('whatever the record', () => {
  const still = BATH_POINTS.map((point) => ({ ...point, reference: point.indicated + 0.25 }));
  const records: readonly (readonly [string, Calibration])[] = [
    ['as usual', someCalibration()],
    ['uneven', unevenCalibration()],
    ['far out', unevenCalibration(25)],
    ['salts', saltCalibration()],
    ['a single point', calibrationFrom(BATH_POINTS.slice(0, 1), { quantity: 'temperature' })],
    ['no scatter', calibrationFrom(still, { quantity: 'temperature', form: 'offset' })],
    ['a curve', calibrationFrom(BATH_POINTS, { quantity: 'temperature', form: 'quadratic' })],
  ];

  test.each(records)('%s: every place is a number within the plane', (_, record) => {
    const { width, height, shapes } = plotGeometry(record);
    for (const { x, y } of shapes.flatMap(placesOf)) {
      expect(x >= 0 && x <= width).toBe(true);
      expect(y >= 0 && y <= height).toBe(true);
    }
  });

  test.each(records)('%s: ticks differ from each other, and the zero line is named', (_, record) => {
    const numbers = texts(record).filter((text) => /^-?[\d.]+$/.test(text));
    expect(numbers.some((text) => Number(text) === 0)).toBe(true);
    expect(numbers.some((text) => /^-0(\.0+)?$/.test(text))).toBe(false);
  });

  test('a fit that speaks of a point that is not there is refused', () => {
    const record = { ...someCalibration(), points: BATH_POINTS.slice(0, 3) };
    expect(codeOf(() => plotGeometry(record))).toBe('OUT_OF_DOMAIN');
  });
});

describe('as SVG', () => {
  const svg = residualPlotSvg(unevenCalibration());

  test('axes have their units, the shapes a legend', () => {
    for (const text of ['indicated temperature, °C', 'residual, °C', 'outlier, used', 'left out'])
      expect(svg).toContain(`>${text}</text>`);
    expect(residualPlotSvg(saltCalibration())).toContain('>residual, %RH</text>');
  });

  test('is told to whoever cannot see it', () => {
    expect(svg).toMatch(/role="img" aria-labelledby="residual-plot-title residual-plot-description"/);
    expect(svg).toContain('<title id="residual-plot-title">Residuals of calibration cal-2026-0007</title>');
    expect(svg).toMatch(
      /<desc id="residual-plot-description">.*6 points were used; .*an outlier: nr 3; left out: nr 6\./,
    );
  });

  test('each kind is drawn once in the field and once in the legend', () => {
    expect(svg.match(/class="used"/g)).toHaveLength(6);
    expect(svg.match(/class="outlier"/g)).toHaveLength(2);
    expect(svg.match(/class="left-out"/g)).toHaveLength(2);
  });

  test('holds nothing but shapes, and all text escaped', () => {
    const hostile = residualPlotSvg(someCalibration({ id: '"><script>x</script>&' }));
    expect(hostile).not.toContain('<script');
    expect(hostile).toContain('&quot;&gt;&lt;script&gt;x&lt;/script&gt;&amp;');
    expect(svg).not.toMatch(/NaN|Infinity|undefined|href|url\(/);
  });

  test('the same record gives the same text', () => {
    expect(residualPlotSvg(unevenCalibration())).toBe(svg);
  });
});

describe('ticks', () => {
  test.each([
    [0, 10, 8, ['0', '2', '4', '6', '8', '10']],
    [-0.11, 0.11, 8, ['-0.10', '-0.05', '0.00', '0.05', '0.10']],
    [3.1, 5.1, 9, ['3.5', '4.0', '4.5', '5.0']],
    [0, 9500, 8, ['0', '2000', '4000', '6000', '8000']],
    [0, 0.8, 8, ['0.0', '0.1', '0.2', '0.3', '0.4', '0.5', '0.6', '0.7', '0.8']],
  ])('from %d to %d, about %d', (low, high, most, expected) => {
    expect(ticksOf(low, high, most).map(({ text }) => text)).toEqual(expected);
  });

  test.each([
    [1, 1],
    [2, 1],
    [Number.NaN, 1],
    [0, Number.POSITIVE_INFINITY],
  ])('an axis from %d to %d is refused', (low, high) => {
    expect(codeOf(() => ticksOf(low, high, 8))).toBe('OUT_OF_DOMAIN');
  });

  test.each([1, Number.NaN])('%d ticks are refused', (most) => {
    expect(codeOf(() => ticksOf(0, 1, most))).toBe('OUT_OF_DOMAIN');
  });
});
