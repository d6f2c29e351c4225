/** Files of calibration pairs, and a station to give them to. */
import { expect } from 'vitest';
import type { PairsBody } from '../../services/http/index.js';
import { bodyOf, openDesk, reading, seriesOf } from './calibrating.js';
import { SHORT_SEASON, siteOf } from './season.js';
import { NOW } from './station.js';

export const FLAT = [0, 1, 2, 3].flatMap((hour) => [
  reading(hour, 'p01', 20, 50),
  reading(hour, 'p02', 20, 50),
]);

export function open(site: unknown = siteOf(SHORT_SEASON)) {
  const station = openDesk(undefined, site);
  station.commit(FLAT);
  station.settle();
  return station;
}

export const HEADER = 'probe,quantity,indicated,reference,uncertainty';
export const GOOD = ['p01,temperature,10,9,0.05', 'p01,temperature,30,29,0.05'];
export const OF_P02 = ['p02,humidity,40,45,0.5', 'p02,humidity,80,85,0.5'];

export function pairs(lines: readonly string[], change: Partial<PairsBody> = {}): PairsBody {
  const { probe: _, quantity: __, points: ___, supersedes: ____, ...shared } = bodyOf();
  return { ...shared, csv: lines.join('\n'), dryRun: false, ...change };
}

export type Opened = ReturnType<typeof open>;

export const kept = (station: Opened): number => station.registry.calibrations.count();

/** What is remembered of calibrations is what is at rest. */
export function expectNothingKept(station: Opened): void {
  expect(kept(station)).toBe(0);
  expect(station.station.calibrations.inForce('test-ridge', 'p01', 'temperature', NOW)).toBeNull();
  for (const probe of ['p01', 'p02'])
    expect(seriesOf(station, probe).temperature_C).toEqual([20, 20, 20, 20]);
  expect(station.station.dirty()).toEqual([]);
}
