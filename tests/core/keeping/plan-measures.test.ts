import { describe, expect, test } from 'vitest';
import { inHands, inMeasures, type Measures, USUAL_MEASURES } from '../../../services/core/keeping/index.js';

const SMALL: Measures = Object.freeze({ hand_cm: 8, span_cm: 16, forearm_cm: 38, stride_cm: 60 });

describe('a length in measures of a body', () => {
  test.each([
    [150, '2 strides'],
    [60, '3 spans'],
    [25, '2½ hands'],
    [45, '1 forearm'],
    [75, '1 stride'],
    [100, '5 spans'],
    [50, '2½ spans'],
    [5, '½ hand'],
    [10, '1 hand'],
    [63, 'about 6½ hands'],
    [1000, 'about 13 strides'],
  ])('%d cm is %s', (length_cm, words) => {
    expect(inMeasures(length_cm)).toBe(words);
  });

  test('follows the sizes that the user set', () => {
    expect(inMeasures(60, SMALL)).toBe('1 stride');
    expect(inMeasures(16, SMALL)).toBe('1 span');
    expect(inHands(24, SMALL)).toBe('3 hands');
    expect(inHands(25)).toBe('2½ hands');
  });

  test('without "about" is never off by more than 1.5 cm or 3 %', () => {
    const cm: Readonly<Record<string, number>> = { stride: 75, forearm: 45, span: 20, hand: 10 };
    for (let length_cm = 5; length_cm <= 400; length_cm += 1) {
      const [, whole = '', half, word = ''] = /^(\d*)(½?) (\w+?)s?$/.exec(inMeasures(length_cm)) ?? [];
      if (word === '') continue;
      const shown = (Number(whole) + (half ? 0.5 : 0)) * (cm[word] as number);
      expect(Math.abs(shown - length_cm)).toBeLessThanOrEqual(Math.max(1.5, 0.03 * length_cm));
    }
  });

  test.each([Number.NaN, 0, -10, 4.9, 10_001, Number.POSITIVE_INFINITY])('of %d cm there are none', (cm) => {
    for (const words of [inMeasures, inHands])
      expect(() => words(cm)).toThrow(expect.objectContaining({ code: 'OUT_OF_DOMAIN' }));
  });

  test.each<Partial<Measures>>([
    { hand_cm: 0 },
    { span_cm: Number.NaN },
    { forearm_cm: 200 },
    { stride_cm: -75 },
  ])('nobody has %j', (own) => {
    expect(() => inMeasures(100, { ...USUAL_MEASURES, ...own })).toThrow(/cm, must be in \[/);
  });
});
