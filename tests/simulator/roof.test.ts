/** Air over a bed under its roof. */
import { describe, expect, test } from 'vitest';
import { Roof } from '../../simulator/roof.js';
import { sunHeight } from '../../simulator/weather.js';

const USUAL = { sun_C: 2, sunLater_h: 0, hutFollows_h: 5, hutWarmer_C: 1 };

/** Under a clear sky of so many parts of the sun, hour by hour, with 20 °C in the shade all the time. */
const day = (roof: Roof, clear = 1): number[] =>
  Array.from({ length: 24 * 6 }, (_, tick) => roof.step(20, clear * sunHeight(tick / 6), tick / 6, 600));

const warmestHour = (course: readonly number[]): number => course.indexOf(Math.max(...course)) / 6;

describe('over a pit', () => {
  test('it is as warm as the shade at night, and by the sun let through warmer at noon', () => {
    const course = day(new Roof('stepped-pit', USUAL, 20));
    expect(course[0]).toBe(20);
    expect(course[12 * 6]).toBeCloseTo(22, 9);
  });

  test.each([-2, 1.5])('its sun may come %d h later, as strong as the sky is clear', (sunLater_h) => {
    const roof = new Roof('stepped-pit', { ...USUAL, sunLater_h }, 20);
    day(roof, 0.5);
    const course = day(roof, 0.5);
    expect(warmestHour(course)).toBeCloseTo(12 + sunLater_h, 1);
    expect(Math.max(...course)).toBeCloseTo(21, 6);
    expect(course[0]).toBe(20);
  });
});

test('in a hut it follows late and damped, around the shade and what the hut adds', () => {
  const roof = new Roof('box', USUAL, 20);
  for (let before = 0; before < 4; before += 1) day(roof);
  const course = day(roof);
  expect(warmestHour(course)).toBeGreaterThan(13.5);
  expect(Math.max(...course)).toBeLessThan(22.7);
  expect(Math.min(...course)).toBeGreaterThan(21);
});
