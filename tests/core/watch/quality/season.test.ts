/** Simulated beds: nothing that is measured well is flagged, wet fronts and rot included. */
import { describe, expect, test } from 'vitest';
import { HOUR_ms } from '../../../../services/core/model/time.js';
import type { Sample } from '../../../../services/core/watch/watch.js';
import { loadScenario } from '../../../../simulator/built-in.js';
import { simulateDays } from '../../../../simulator/days.js';
import { countFlags, faultsIn, runQuality, START } from './a-probe.js';

/** By probe, in order of time. */
function simulated(part: string, days: number): Map<string, Sample[]> {
  const demo = loadScenario('demo-site');
  const beds = demo.beds.map(({ rots, leak, ...bed }) => ({
    ...bed,
    rots: rots.map((rot) => ({ ...rot, startDay: 3 })),
    ...(leak && { leak: { ...leak, startDay: 3, litres_per_day: 12 } }),
  }));
  const byProbe = new Map<string, Sample[]>();
  for (const sent of simulateDays({ ...demo, beds, days }, part, 1))
    for (const { probe, readings } of sent)
      for (const { time_s, temperature_C, humidity_RH } of readings) {
        const samples = byProbe.get(probe) ?? [];
        byProbe.set(probe, samples);
        samples.push({ at: START + time_s * 1000, temperature: temperature_C, humidity: humidity_RH });
      }
  for (const samples of byProbe.values()) samples.sort((one, other) => one.at - other.at);
  return byProbe;
}

describe('eight days of the demo site', () => {
  test.each(['pit-a', 'pit-b', 'pit-c', 'box-d', 'SHADE'])('%s: no flag, no fault, no doubt', (part) => {
    const byProbe = simulated(part, 8);
    expect(byProbe.size).toBeGreaterThan(0);
    for (const samples of byProbe.values()) {
      const { results } = runQuality(samples, { place: part === 'SHADE' ? 'shade' : 'bed' });
      expect(results.length).toBeGreaterThan((7 * 24 * HOUR_ms) / HOUR_ms);
      expect(countFlags(results)).toEqual({});
      expect(faultsIn(results)).toEqual([]);
      expect(results.some(({ hour }) => hour.wetOrBroken)).toBe(false);
    }
  });
});
