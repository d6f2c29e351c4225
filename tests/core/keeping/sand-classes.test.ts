import { describe, expect, test } from 'vitest';
import { unifiedClassOf, wentworthClassOf } from '../../../services/core/keeping/sand-classes.js';
import { flowOf, hazenConductivity_m_s } from '../../../services/core/keeping/sand-flow.js';
import type { GrainSize, Grains } from '../../../services/core/keeping/sand-grains.js';
import { refuses } from '../physics/refused.js';

const known = (mm: number): GrainSize => ({ is: 'known', mm });
const exactly = (percent: number) => ({ low: percent, high: percent });

const GRAINS: Grains = Object.freeze({
  d10: known(0.2),
  d30: known(0.3),
  d50: known(0.4),
  d60: known(0.5),
  uniformity: 2.5,
  curvature: 0.9,
  fines: exactly(2),
  gravel: exactly(0),
});
const WELL = { uniformity: 6, curvature: 1 };

const symbols = (part: Partial<Grains>): readonly string[] => unifiedClassOf({ ...GRAINS, ...part }).symbols;

describe('Unified Soil Classification, limits of ASTM D2487 (from memory)', () => {
  test.each<[string, Partial<Grains>, readonly string[]]>([
    ['poorly graded', {}, ['SP']],
    ['well graded, at both lower ends', WELL, ['SW']],
    ['well graded, at the upper end of Cc', { uniformity: 6, curvature: 3 }, ['SW']],
    ['Cu just too small', { uniformity: 5.99, curvature: 1 }, ['SP']],
    ['Cc just too small', { uniformity: 6, curvature: 0.99 }, ['SP']],
    ['Cc just too large', { uniformity: 6, curvature: 3.01 }, ['SP']],
    ['fines just below 5 %', { fines: exactly(4.99) }, ['SP']],
    ['fines of 5 %', { fines: exactly(5) }, ['SP-SM', 'SP-SC']],
    ['fines of 12 %', { ...WELL, fines: exactly(12) }, ['SW-SM', 'SW-SC']],
    ['fines just above 12 %', { fines: exactly(12.01) }, ['SM', 'SC', 'SC-SM']],
    ['fines of half', { fines: exactly(50) }, []],
    ['half of the rest gravel', { gravel: exactly(49) }, ['SP']],
    ['more than half of the rest gravel', { gravel: exactly(49.1) }, ['GP']],
    ['gravel that would be a poor sand', { uniformity: 4, curvature: 1, gravel: exactly(60) }, ['GW']],
    ['dual gravel', { fines: exactly(8), gravel: exactly(60) }, ['GP-GM', 'GP-GC']],
  ])('%s', (_, part, expected) => {
    expect(symbols(part)).toEqual(expected);
  });

  test('what is not known leaves every symbol that fits', () => {
    expect(symbols({ curvature: undefined })).toEqual(['SW', 'SP']);
    expect(symbols({ fines: { low: 0, high: 8 } })).toEqual(['SP', 'SP-SM', 'SP-SC']);
    expect(symbols({ gravel: { low: 40, high: 60 } })).toEqual(['SP', 'GP']);
  });

  test('and says why there are several', () => {
    const remark = (part: Partial<Grains>): string => unifiedClassOf({ ...GRAINS, ...part }).remark;
    expect(remark({})).toBe('');
    expect(remark({ fines: exactly(8) })).toContain('silt (M) or clay (C)');
    expect(remark({ fines: { low: 0, high: 4 } })).toContain('no sieve is as fine as 0.075 mm');
    expect(remark({ uniformity: undefined, curvature: undefined })).toContain('beyond the sieves');
    expect(remark({ fines: exactly(60) })).toMatch(/^this is silt or clay, not sand/);
    expect(remark({ fines: { low: 20, high: 60 } })).toMatch(/^this may be silt or clay/);
  });
});

describe('Udden-Wentworth class of the median', () => {
  // Limits of the sands seen in several tables; each belongs to the coarser class.
  test.each([
    [0.0624, 'silt'],
    [0.0625, 'very fine sand'],
    [0.125, 'fine sand'],
    [0.2499, 'fine sand'],
    [0.25, 'medium sand'],
    [0.4999, 'medium sand'],
    [0.5, 'coarse sand'],
    [1, 'very coarse sand'],
    [2, 'granules'],
    [4, 'pebbles'],
  ])('%d mm is %s', (mm, name) => {
    expect(wentworthClassOf(known(mm))).toBe(name);
  });

  test('is not known beyond the sieves', () => {
    expect(wentworthClassOf({ is: 'below', mm: 0.3 })).toBeUndefined();
    expect(wentworthClassOf({ is: 'above', mm: 0.3 })).toBeUndefined();
  });
});

describe('flow', () => {
  test('of clean sand is known, with its range', () => {
    const flow = flowOf(GRAINS);
    if (flow.is !== 'known') throw new Error(flow.reason);
    expect(flow.conductivity_m_s).toBeCloseTo(4e-4, 12);
    expect(flow.low_m_s).toBeCloseTo(1.6e-4, 12);
    expect(flow.high_m_s).toBeCloseTo(6e-4, 12);
    // 4e-4 m/s times 1.307e-3 Pa s over 999.7 kg/m3 and 9.80665 m/s2 [by hand].
    expect(flow.permeability_m2).toBeCloseTo(5.3326e-11, 14);
  });

  test.each<[string, Partial<Grains>, RegExp]>([
    ['D10 below the sieves', { d10: { is: 'below', mm: 0.2 } }, /got below 0\.2 mm/],
    ['D10 too small', { d10: known(0.099) }, /got 0\.099 mm/],
    ['D10 too large', { d10: known(2.6) }, /got 2\.6 mm/],
    ['Cu too large', { uniformity: 5 }, /got 5/],
    ['no Cu', { uniformity: undefined }, /got none/],
  ])('is not known with %s', (_, part, reason) => {
    const flow = flowOf({ ...GRAINS, ...part });
    expect(flow.is === 'unknown' && flow.reason).toMatch(reason);
  });

  refuses('D10', hazenConductivity_m_s, [0.0999, 2.51]);
  refuses('coefficient', (coefficient) => hazenConductivity_m_s(0.25, coefficient), [39, 151, 144_000]);
});
