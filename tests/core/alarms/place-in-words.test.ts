import fc from 'fast-check';
import { expect, test } from 'vitest';
import { placeInWords } from '../../../services/core/alarms/place-in-words.js';
import { septetsOf } from '../../../services/core/alarms/septets.js';
import { BOX, PIT } from './an-alarm.js';

const place = (x: number, y: number, depth: number, radius = 15) => ({ x, y, depth, radius });
const inPit = (x: number, y: number, depth: number) => placeInWords(place(x, y, depth), PIT.steps);

test('a place is said in a keeper’s words, at several lengths, and in measures only in the full text', () => {
  expect(inPit(45, 20, 40)).toEqual({
    full:
      'deep down, about a span from the north-west side and about a forearm from the north-west end: 45 cm along ' +
      'and 20 cm across from the north-west corner of the opening, 40 cm deep (step 2 of 2 from the top). Look ' +
      'within 15 cm of there. The north-west end and the north-west side meet in that corner; ends lie along the ' +
      'length, sides across it',
    lines: [
      'deep down (about a forearm), about a span from the north-west side and about a forearm from the north-west end',
      'deep down, about a span from the north-west side and about a forearm from the north-west end',
      'deep down, a span from NW side, a forearm from NW end',
      'deep down, 20 cm from NW side, 45 cm from NW end',
    ],
  });
});

test.each([
  [75, 50, 25, 'half-way down in the middle of the bed', 'half-way down, middle of the bed'],
  [
    105,
    50,
    40,
    'deep down in the middle, about a forearm from the far end',
    'deep down, middle, 45 cm from far end',
  ],
  [
    75,
    90,
    12,
    'a third down, about a hand from the far side, half-way along',
    'a third down, 10 cm from far side, half-way along',
  ],
  [
    0,
    100,
    0,
    'near the top, at the far side and at the north-west end',
    'near the top, at far side, at NW end',
  ],
  [
    160,
    50,
    50,
    'on the floor in the middle, about a hand outside the far end',
    'on the floor, middle, 10 cm outside far end',
  ],
])(
  '%d cm along, %d across, %d deep in a pit of 150 by 100 by 50 cm is %s',
  (x, y, depth, words, shortest) => {
    const { full, lines } = inPit(x, y, depth);
    expect(full).toMatch(new RegExp(`^${words}: ${x} cm along`));
    expect(lines[1]).toBe(words);
    expect(lines.at(-1)).toBe(shortest);
  },
);

test('the middle is no wider than arms are exact, and leaves each side of a narrow bed a third', () => {
  const middle = (at: number, width: number): boolean =>
    /^half-way down in the middle/.test(
      placeInWords(place(10, at, 25), [{ length: 300, width, height: 50 }]).full,
    );
  expect([37, 38, 62, 63].map((y) => middle(y, 100))).toEqual([false, true, true, false]);
  expect([19, 20, 40, 41].map((y) => middle(y, 60))).toEqual([false, true, true, false]);
});

test.each([
  [0, 'step 1 of 2'],
  [24.9, 'step 1 of 2'],
  [25, 'step 2 of 2'],
])('%d cm down a stepped pit is in %s', (depth, words) => {
  expect(inPit(80, 35, depth).full).toContain(words);
});

test('a box has no step to name, and neither has a place under the floor', () => {
  expect(placeInWords(place(10, 10, 10), BOX.steps).full).not.toContain('step');
  expect(inPit(10, 10, 60).full).toMatch(/^below the floor(?!.*step)/);
});

test('an opening that does not begin at the origin has its ends where it lies', () => {
  const moved = [{ length: 150, width: 100, height: 25, x: 300, y: -50 }];
  expect(placeInWords(place(310, -40, 10), moved).full).toContain(
    'about a hand from the north-west side and about a hand from the north-west end',
  );
});

/** What a keeper would hold against the bed, cm: written again here, so that a slip in the code shows. */
const ARM_cm: Record<string, number> = {
  'a hand': 10,
  'a span': 20,
  'a span and a hand': 30,
  'a forearm': 45,
  'an arm': 70,
  'two forearms': 90,
  'an arm and a forearm': 115,
  'two arms': 140,
};
const inArms_cm = (words: string): number => ARM_cm[words] ?? Number(/^([\d.]+) m$/.exec(words)?.[1]) * 100;

/** Farther from its words a place never is, cm: half the widest gap between arm lengths, half of half a metre. */
const ARM_TOLERANCE_cm = 12.5;
const METRE_TOLERANCE_cm = 25;

const steps = fc
  .tuple(
    fc.record({
      length: fc.integer({ min: 40, max: 1000 }),
      width: fc.integer({ min: 30, max: 400 }),
      height: fc.integer({ min: 15, max: 80 }),
    }),
    fc.array(fc.constantFrom(0.3, 0.5, 0.75, 1), { maxLength: 3 }),
  )
  .map(([top, shares]) => [
    top,
    ...shares.map((share) => ({ ...top, length: top.length * share, width: top.width * share })),
  ]);
/** Even over the bed: doubles as such would crowd at its corner. */
const share = fc.integer({ min: 0, max: 1000 }).map((thousandths) => thousandths / 1000);

/** Holds the words for one direction against the numbers. */
function checkDirection(words: string, part: 'end' | 'side', at_cm: number, whole_cm: number): void {
  const pattern = new RegExp(`(?:about ((?:(?!about|, ).)+?) from|at) the (north-west|far) ${part}`);
  const [, length, wall] = pattern.exec(words) ?? [];
  if (wall === undefined) {
    expect(words).toMatch(part === 'end' ? /half-way along|in the middle of the bed/ : /in the middle/);
    expect(Math.abs(at_cm - whole_cm / 2)).toBeLessThanOrEqual(12);
    return;
  }
  const fromNamed_cm = wall === 'far' ? whole_cm - at_cm : at_cm;
  expect(fromNamed_cm).toBeLessThan(whole_cm / 2);
  if (length === undefined) {
    expect(fromNamed_cm).toBeLessThan(5);
    return;
  }
  const tolerance_cm = length.endsWith(' m') ? METRE_TOLERANCE_cm : ARM_TOLERANCE_cm;
  expect(Math.abs(inArms_cm(length) - fromNamed_cm)).toBeLessThanOrEqual(tolerance_cm);
}

const DEPTH_SHARES: Record<string, readonly [number, number]> = {
  'near the top': [0, 0.2],
  'a third down': [0.2, 0.4],
  'half-way down': [0.4, 0.6],
  'deep down': [0.6, 1],
  'on the floor': [0.5, 1],
};

test('in any bed the words name the nearer end and side, and lengths and depth that agree with the numbers', () => {
  fc.assert(
    fc.property(steps, share, share, share, (bed, along, across, down) => {
      const [top] = bed;
      const floor_cm = bed.reduce((sum, { height }) => sum + height, 0);
      const [length_cm, width_cm] = [top?.length ?? 0, top?.width ?? 0];
      const at = place(along * length_cm, across * width_cm, down * floor_cm);
      const { full, lines } = placeInWords(at, bed);
      const sentence = full.split(': ')[0] ?? '';
      checkDirection(sentence, 'end', at.x, length_cm);
      checkDirection(sentence, 'side', at.y, width_cm);
      const depth = Object.keys(DEPTH_SHARES).find((words) => sentence.startsWith(words)) ?? '';
      const [low, high] = DEPTH_SHARES[depth] ?? [1, 0];
      expect([depth, down >= low - 1e-9 && down <= high + 1e-9]).toEqual([depth, true]);
      expect(full).toContain(`${Math.round(at.x)} cm along and ${Math.round(at.y)} cm across`);
      // In the shortest, centimetres are from the named wall.
      const [, cm, wall] = /(\d+) cm from (NW|far) end/.exec(lines.at(-1) ?? '') ?? [];
      if (cm !== undefined) expect(Number(cm)).toBe(Math.round(wall === 'far' ? length_cm - at.x : at.x));
    }),
    { seed: 45, numRuns: 2000 },
  );
});

/** `175 cm` has three characters more than `2 m`, twice in a place. */
const METRES_TO_CM = 6;

test('each variant is no longer than the one before it, and the last is short enough for any line', () => {
  fc.assert(
    fc.property(steps, share, share, share, (bed, along, across, down) => {
      const top = bed[0] ?? { length: 0, width: 0 };
      const floor_cm = bed.reduce((sum, { height }) => sum + height, 0);
      const { lines } = placeInWords(place(along * top.length, across * top.width, down * floor_cm), bed);
      const lengths = lines.map((line) => septetsOf(line) ?? Number.NaN);
      for (const [i, length] of lengths.entries())
        expect(length).toBeLessThanOrEqual((lengths[i - 1] ?? 160) + METRES_TO_CM);
      expect(lengths.at(-1)).toBeLessThanOrEqual(58);
      expect(lines.join()).not.toMatch(/undefined|NaN| {2}|-\d/);
    }),
    { seed: 46, numRuns: 1000 },
  );
});

test.each(['x', 'y', 'depth', 'radius'] as const)('a place whose %s is no number is refused', (name) => {
  for (const value of [Number.NaN, Number.POSITIVE_INFINITY, -1e9])
    expect(() => placeInWords({ ...place(80, 35, 40), [name]: value }, PIT.steps)).toThrow(
      expect.objectContaining({ code: 'OUT_OF_DOMAIN', message: expect.stringContaining(`place.${name}`) }),
    );
});

test('a bed without steps is refused', () => {
  expect(() => placeInWords(place(80, 35, 40), [])).toThrow(
    expect.objectContaining({
      code: 'OUT_OF_DOMAIN',
      message: expect.stringContaining('number of steps must be in [1, '),
    }),
  );
});
