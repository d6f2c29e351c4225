/**
 * Creep of humidity sensors near saturation: about +3 %RH after 60 h above 80 %RH, reversible [V: SHT1x, SHT2x sheets];
 * accuracy ±3, ±4.5 at 100 [V: SHT30 sheet].
 */
import { expect, test } from 'vitest';
import { gatherCreep, humidityUncertainty_RH } from '../../../../services/core/watch/quality/creep.js';
import { runQuality, soundProbe } from './a-probe.js';

test.each([
  [0, 50, 3],
  [0, 90, 3],
  [0, 100, 4.5],
  [60, 86, Math.sqrt(18)],
  [30, 86, Math.sqrt(9 + 2.25)],
  [60, 95, Math.sqrt(3.75 ** 2 + 9)],
])('after %d h of creep at a humidity of %d', (creep_h, mean_RH, uncertainty_RH) => {
  expect(humidityUncertainty_RH(creep_h, mean_RH)).toBeCloseTo(uncertainty_RH, 12);
});

test('gathers above 80 %RH up to 60 h, and goes back as slowly', () => {
  let creep_h = 0;
  for (let hour = 0; hour < 100; hour += 1) creep_h = gatherCreep(creep_h, 80.1);
  expect(creep_h).toBe(60);
  for (let hour = 0; hour < 20; hour += 1) creep_h = gatherCreep(creep_h, 80);
  expect(creep_h).toBe(40);
  for (let hour = 0; hour < 100; hour += 1) creep_h = gatherCreep(creep_h, 60);
  expect(creep_h).toBe(0);
});

test('is stated with each hour’s humidity, and only there', () => {
  const { results } = runQuality(soundProbe({ days: 5 }));
  expect(results[1]?.hour.humidityUncertainty_RH).toBeCloseTo(3, 2);
  expect(results.at(-1)?.hour.humidityUncertainty_RH).toBeCloseTo(4.243, 3);
  const without = runQuality(soundProbe({ days: 1 }).map(({ at, temperature = 0 }) => ({ at, temperature })));
  expect(without.results[5]?.hour).not.toHaveProperty('humidityUncertainty_RH');
});
