import { describe, expect, test } from 'vitest';
import { blocksOf } from '../../../services/core/model/bed.js';
import { excessStep } from '../../../services/web/bed/section/excess.js';
import { frameOf, marksOf, scaleFor } from '../../../services/web/bed/section/frame.js';
import { placeLabels, spread } from '../../../services/web/bed/section/labels.js';
import { cellsOf } from '../../../services/web/bed/section/shading.js';
import { beforeCut, isCut, VIEWS } from '../../../services/web/bed/section/views.js';

const PIT = [
  { length: 150, width: 100, height: 25 },
  { length: 150, width: 60, height: 25 },
];
const BLOCKS = blocksOf(PIT);
const CUT = { x: 75, y: 10, depth: 30 };

describe('steps of the excess', () => {
  test.each([
    [-0.31, 'cooler'],
    [-0.3, 'cooler'],
    [-0.29, 'even'],
    [0.3, 'even'],
    [0.31, 'little'],
    [0.71, 'warmer'],
    [1.5, 'warmer'],
    [1.51, 'much'],
  ])('%s °C is %s', (excess, step) => {
    expect(excessStep(excess)).toBe(step);
  });

  test.each([null, undefined, Number.NaN])('%s is not known, never as expected', (excess) => {
    expect(excessStep(excess)).toBe('unknown');
  });
});

describe('a cut', () => {
  test('says what lies in front of it and behind it, as its viewer sees it', () => {
    const probe = { x: 45, y: 30, depth: 20 };
    expect(beforeCut(VIEWS.along, probe, CUT)).toBe(20);
    expect(beforeCut(VIEWS.across, probe, CUT)).toBe(30);
    expect(beforeCut(VIEWS.across, { ...probe, x: 90 }, CUT)).toBe(-15);
    expect(beforeCut(VIEWS.along, { ...probe, y: 15 }, CUT)).toBe(0);
    expect(beforeCut(VIEWS.above, probe, CUT)).toBe(0);
  });

  test('misses a narrower step that it does not go through', () => {
    expect(BLOCKS.map((block) => isCut(VIEWS.along, block, CUT))).toEqual([true, false]);
    expect(BLOCKS.map((block) => isCut(VIEWS.across, block, CUT))).toEqual([true, true]);
  });

  test('keeps one scale in both directions and leaves a long bed wide enough to be read', () => {
    const scale = scaleFor('along', BLOCKS, 300, false);
    const { x, y } = frameOf('along', BLOCKS, { scale, letters: 13 });
    expect(x(10) - x(0)).toBeCloseTo(y(10) - y(0));
    expect(scaleFor('along', blocksOf([{ length: 1000, width: 80, height: 50 }]), 300, false)).toBe(1.2);
    expect(marksOf([0, 150], 1.6)).toEqual([0, 20, 40, 60, 80, 100, 120, 140]);
  });
});

describe('labels', () => {
  test('cover neither a mark nor one another where there is room', () => {
    const marks = [100, 130, 160].map((x) => ({ x, y: 60, half: 12, width: 60, height: 32 }));
    const boxes = placeLabels(marks, { left: 0, top: 0, width: 300, height: 160 });
    const all = [
      ...boxes,
      ...marks.map(({ x, y }) => ({ left: x - 12, top: y - 12, width: 24, height: 24 })),
    ];
    for (const [index, one] of all.entries())
      for (const other of all.slice(index + 1)) {
        const across =
          Math.min(one.left + one.width, other.left + other.width) - Math.max(one.left, other.left);
        const down = Math.min(one.top + one.height, other.top + other.height) - Math.max(one.top, other.top);
        expect(index >= 3 || across <= 0 || down <= 0).toBe(true);
      }
  });

  test('of probes one behind the other stand beside two marks', () => {
    const [one, other] = spread(
      [
        { x: 50, y: 50 },
        { x: 50, y: 50 },
      ],
      22,
    );
    expect(Math.abs((one?.x ?? 0) - (other?.x ?? 0))).toBeGreaterThanOrEqual(22);
  });
});

describe('the shading', () => {
  const places = [
    { x: 40, y: 30, depth: 10, chance: 0.95 },
    { x: 110, y: 30, depth: 10, chance: 0.6 },
    { x: 40, y: 70, depth: 10, chance: 0.1 },
    { x: 110, y: 70, depth: 10, chance: 0.1 },
  ];
  const box = [{ length: 150, width: 100, height: 20 }];

  test('of a cut is that of the places nearest to it, up to the walls', () => {
    expect(cellsOf(box, places, VIEWS.along, { x: 75, y: 20, depth: 10 })).toEqual([
      { right: [0, 75], down: [0, 20], sight: 'seen' },
      { right: [75, 150], down: [0, 20], sight: 'perhaps' },
    ]);
    const far = cellsOf(box, places, VIEWS.along, { x: 75, y: 90, depth: 10 });
    expect(far.map(({ sight }) => sight)).toEqual(['blind', 'blind']);
  });

  test('leaves uncoloured a step that nobody asked about, and one that the cut misses', () => {
    expect(cellsOf(box, [], VIEWS.along, CUT)).toEqual([]);
    const cells = cellsOf(PIT, [...places, { x: 75, y: 50, depth: 40, chance: 1 }], VIEWS.along, CUT);
    expect(Math.max(...cells.map(({ down }) => down[1]))).toBe(25);
  });
});
