import { expect, test } from 'vitest';
import type { Probe } from '../../../../services/core/model/site.js';
import { shadeStands, standingIn } from '../../../../services/core/watch/coverage/index.js';

const at = (x: number, from: number, to?: number) => ({
  ...{ bed: 'pit-a', x, y: 40, depth: 30, from },
  ...(to !== undefined && { to }),
});
const probe = (id: string, ...placements: Probe['placements']): Probe => ({ id, placements });

const PROBES: readonly Probe[] = [
  probe('p01', at(10, 0), at(20, 100)),
  probe('p02', at(30, 0, 50)),
  probe('p03', at(40, 0), { ...at(50, 100), bed: 'pit-b' }),
  probe('p04', at(60, 0), { ambient: true, from: 100 }),
  probe('p05', at(70, 1000)),
];

test('probes stand where they were put last, those taken out not at all, those to come already', () => {
  const points = standingIn('pit-a', PROBES, 200);
  expect(points).toEqual([20, 70].map((x) => ({ x, y: 40, depth: 30 })));
  expect(standingIn('pit-a', PROBES, 49).map(({ x }) => x)).toEqual([20, 30, 70]);
  expect(standingIn('pit-a', PROBES, 50).map(({ x }) => x)).toEqual([20, 70]);
});

test('the shade has a probe while one stands there', () => {
  expect(shadeStands(PROBES, 200)).toBe(true);
  expect(shadeStands([probe('p09', { ambient: true, from: 0, to: 150 })], 200)).toBe(false);
  expect(shadeStands([], 200)).toBe(false);
});
