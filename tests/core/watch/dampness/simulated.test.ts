/** A leak in the simulator, whose sand and water know nothing of the watch. */
import { describe, expect, test } from 'vitest';
import { thresholdsInForce } from '../../../../services/core/model/threshold.js';
import { HOUR_ms } from '../../../../services/core/model/time.js';
import { newDampness, stepDampness } from '../../../../services/core/watch/dampness/index.js';
import type { Sample } from '../../../../services/core/watch/watch.js';
import { loadScenario } from '../../../../simulator/built-in.js';
import { simulateDaysWithTruth } from '../../../../simulator/days.js';
import { hourOfSamples, START } from './a-bed.js';

const SEED = 1;

/** Days to the first probe's front and a little over: the leak begins on day 30. */
function leakPit(days: number) {
  const scenario = { ...loadScenario('leak-pit'), days };
  const [bed] = scenario.beds;
  if (!bed) throw new Error('expected a bed');
  const samples = new Map<string, Sample[]>();
  const wetAt_h = new Map<string, number>();
  for (const { sent, hours } of simulateDaysWithTruth(scenario, bed.id, SEED)) {
    for (const { probe, readings } of sent)
      for (const { time_s, temperature_C, humidity_RH } of readings) {
        const key = `${probe} ${Math.floor(time_s / 3600)}`;
        const sample = { at: START + time_s * 1000, temperature: temperature_C, humidity: humidity_RH };
        samples.set(
          key,
          [...(samples.get(key) ?? []), sample].sort((one, other) => one.at - other.at),
        );
      }
    for (const { hour, sands } of hours)
      for (const { probe, wet } of sands) if (wet && !wetAt_h.has(probe)) wetAt_h.set(probe, hour);
  }
  return { bed, samples, wetAt_h };
}

describe('a leak of 3 litres a day', () => {
  const { bed, samples, wetAt_h } = leakPit(35);
  const state = newDampness(START);
  const toldAt_h = new Map<string, number>();
  const before: string[] = [];
  for (let hour = 0; hour < 35 * 24; hour += 1) {
    const probes = bed.probes.map((probe) => {
      const own = samples.get(`${probe.id} ${hour}`) ?? [];
      return { ...probe, hour: hourOfSamples(own), samples: own };
    });
    const { findings } = stepDampness(state, {
      hour: START + hour * HOUR_ms,
      bed,
      probes,
      thresholds: thresholdsInForce(),
    });
    for (const { kind, probe } of findings) {
      if (hour < 30 * 24) before.push(`${kind} ${probe}`);
      if (kind === 'wetting' && !toldAt_h.has(probe)) toldAt_h.set(probe, hour + 1);
    }
  }

  test('is told at every probe that water reached, within two hours', () => {
    expect(wetAt_h.size).toBeGreaterThanOrEqual(2);
    for (const [probe, wet_h] of wetAt_h) {
      // Truth is known by the hour's end: water came within the hour before.
      const delay_h = (toldAt_h.get(probe) ?? Number.NaN) - (wet_h - 1);
      expect(delay_h).toBeLessThanOrEqual(2);
    }
  });

  test('and nowhere else, and nothing before it began', () => {
    expect([...toldAt_h.keys()].sort()).toEqual([...wetAt_h.keys()].sort());
    expect(before).toEqual([]);
  });
});
