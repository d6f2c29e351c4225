import { describe, expect, test } from 'vitest';
import {
  BENCH_SOURCE,
  beginPoint,
  benchCautions,
  ICE_POINT,
  pointProblem,
  SALTS,
  SOAK_LEAST_s,
  saltPoint,
} from '../../../services/core/calibration/index.js';
import { type BenchPointBody, SALT_IDS } from '../../../services/core/model/bench.js';
import type { CalibratedQuantity } from '../../../services/core/model/calibration.js';
import { codeOf } from '../physics/refused.js';
import { START } from './bench-readings.js';
import { frozen, MINUTE_ms, saying, someBench } from './some-bench.js';

const begun = (quantity: CalibratedQuantity, body: BenchPointBody) =>
  beginPoint(someBench(quantity), frozen(body), START).points[0];

const BESIDE = { source: 'instrument', reference: 25, uncertainty: 0.05 } as const;
const BOILING = { source: 'boiling-point', pressure_hPa: 1013.25, pressureUncertainty_hPa: 1 } as const;
const SALT = {
  source: 'salt',
  salt: 'sodium-chloride',
  temperature_C: 24.8,
  temperatureUncertainty_C: 0.2,
} as const;

test('points are numbered from 1, and the bench before stays as it was', () => {
  const bench = someBench();
  const first = frozen(beginPoint(bench, { source: 'ice-point' }, START));
  const second = beginPoint(first, BESIDE, START + MINUTE_ms);
  expect(bench.points).toEqual([]);
  expect(first.points).toHaveLength(1);
  expect(second.points.map(({ number, startedAt, source }) => [number, startedAt, source])).toEqual([
    [1, START, 'ice-point'],
    [2, START + MINUTE_ms, 'instrument'],
  ]);
});

describe('beside an instrument', () => {
  test('as entered', () => {
    expect(begun('temperature', BESIDE)).toEqual({
      number: 1,
      startedAt: START,
      source: 'instrument',
      reference: 25,
      referenceUncertainty: 0.05,
      label: 'beside instrument',
      basis: 'read from the reference: 25 Cel; 0.05 Cel, k = 1, as entered',
      captured: [],
    });
  });

  test.each([
    ['temperature', 'Cel', 20, 0.1, 20, 0.1],
    ['temperature', 'K', 293.15, 0.1, 20, 0.1],
    ['humidity', '%RH', 75, 1.5, 75, 1.5],
    ['humidity', '/', 0.75, 0.015, 75, 1.5],
  ] as const)('%s in %s: %d ± %d is %d ± %d', (quantity, unit, reference, uncertainty, stored, spread) => {
    const point = begun(quantity, { source: 'instrument', reference, uncertainty, unit });
    expect(point?.reference).toBe(stored);
    expect(point?.referenceUncertainty).toBeCloseTo(spread, 12);
  });

  test.each([
    ['temperature', '%RH', 'Cel or K'],
    ['temperature', '/', 'Cel or K'],
    ['humidity', 'Cel', '%RH or /'],
    ['humidity', 'K', '%RH or /'],
  ] as const)('%s in %s is refused', (quantity, unit, expected) => {
    const call = () => begun(quantity, { ...BESIDE, unit });
    expect(codeOf(call)).toBe('BAD_REQUEST');
    expect(saying(call)).toBe(
      `reference and probe in different units: expected ${expected} for ${quantity}, got ${unit}`,
    );
  });

  test('a chamber has its temperature for a humidity only', () => {
    expect(begun('humidity', { ...BESIDE, temperature_C: 21 })?.temperature_C).toBe(21);
    expect(codeOf(() => begun('temperature', { ...BESIDE, temperature_C: 21 }))).toBe('BAD_REQUEST');
  });

  // The ranges are those of a calibration point: what begins must also be fit to be used.
  test.each([
    ['temperature', -60, -60.1],
    ['temperature', 160, 160.1],
    ['temperature', 20, 293.15],
    ['humidity', 0, -0.1],
    ['humidity', 100, 100.1],
  ] as const)('%s of %d is taken, of %d refused', (quantity, taken, refused) => {
    const pointOf = (reference: number) =>
      ({ indicated: reference, reference, referenceUncertainty: 1, source: 'instrument' }) as const;
    expect(begun(quantity, { ...BESIDE, reference: taken })?.reference).toBe(taken);
    expect(pointProblem(pointOf(taken), quantity)).toBeUndefined();
    expect(codeOf(() => begun(quantity, { ...BESIDE, reference: refused }))).toBe('OUT_OF_DOMAIN');
    expect(pointProblem(pointOf(refused), quantity)).toBeDefined();
  });

  test('no number at all is refused', () => {
    expect(codeOf(() => begun('temperature', { ...BESIDE, reference: Number.NaN }))).toBe('OUT_OF_DOMAIN');
  });
});

describe('in ice', () => {
  test('0 °C with the usual uncertainty, or the one entered', () => {
    const usual = begun('temperature', { source: 'ice-point' });
    expect(usual).toMatchObject({
      reference: 0,
      referenceUncertainty: ICE_POINT.standardUncertainty_C,
      label: 'ice point',
      basis: ICE_POINT.source,
    });
    const own = begun('temperature', { source: 'ice-point', uncertainty: 0.02 });
    expect(own).toMatchObject({ reference: 0, referenceUncertainty: 0.02 });
    expect(own?.basis).toContain('0.02 °C, k = 1, as entered');
  });
});

describe('in boiling water', () => {
  test('99.974 °C at 1013.25 hPa (IAPWS), no surer than boiling itself', () => {
    const point = begun('temperature', BOILING);
    expect(point?.reference).toBeCloseTo(99.974, 3);
    expect(point?.referenceUncertainty).toBeGreaterThan(0.15);
    expect(point?.label).toBe('boiling point at 1013.25 hPa');
    expect(point?.basis).toContain('pressure known to 1 hPa');
  });

  test.each([101.325, 1101, Number.NaN])('a pressure of %d hPa is refused', (pressure_hPa) => {
    expect(codeOf(() => begun('temperature', { ...BOILING, pressure_hPa }))).toBe('OUT_OF_DOMAIN');
  });

  test('a pressure known to -1 hPa is refused', () => {
    expect(codeOf(() => begun('temperature', { ...BOILING, pressureUncertainty_hPa: -1 }))).toBe(
      'OUT_OF_DOMAIN',
    );
  });
});

describe('over salt', () => {
  // Greenspan 1977: 75.29 %RH at 25 °C, and it falls by 0.03 %RH for each °C there.
  test('sodium chloride at 24.8 °C', () => {
    const point = begun('humidity', SALT);
    expect(point?.reference).toBeCloseTo(75.3, 1);
    expect(point?.referenceUncertainty).toBe(saltPoint('sodium-chloride', 24.8, 0.2).standardUncertainty_RH);
    expect(point).toMatchObject({ temperature_C: 24.8, label: 'saturated NaCl at 24.8 °C' });
    expect(point?.basis).toMatch(/Greenspan 1977, NaCl.*jar known to 0.2 °C, k = 1, as entered$/);
  });

  test('a probe that may be warmer than the salt makes it less sure', () => {
    const point = begun('humidity', { ...SALT, probeDifference_C: 0.5 });
    expect(point?.referenceUncertainty).toBe(
      saltPoint('sodium-chloride', 24.8, 0.2, 0.5).standardUncertainty_RH,
    );
    expect(point?.basis).toContain('probes within 0.5 °C of it');
  });

  test.each([
    ['too warm', { salt: 'sodium-bromide', temperature_C: 30.1 }],
    ['too cold', { salt: 'sodium-chloride', temperature_C: 9.9 }],
    ['of no temperature', { temperature_C: Number.NaN }],
    ['of a temperature known to 6 °C', { temperatureUncertainty_C: 6 }],
    ['3 °C from its probes', { probeDifference_C: 3 }],
  ] as const)('a jar that is %s is refused', (_, part) => {
    expect(codeOf(() => begun('humidity', { ...SALT, ...part }))).toBe('OUT_OF_DOMAIN');
  });

  test('a request may name the salts that there are, all of them', () => {
    expect(SALTS.map(({ id }) => id)).toEqual([...SALT_IDS]);
  });
});

describe('misuse', () => {
  test.each([
    [
      'humidity',
      { source: 'ice-point' },
      'ice point: expected a bench for temperature, got one for humidity',
    ],
    ['humidity', BOILING, 'boiling point: expected a bench for temperature, got one for humidity'],
    ['temperature', SALT, 'salt: expected a bench for humidity, got one for temperature'],
  ] as const)('%s at a fixed point of the other quantity', (quantity, body, told) => {
    expect(codeOf(() => begun(quantity, body))).toBe('BAD_REQUEST');
    expect(saying(() => begun(quantity, body))).toBe(told);
  });

  test('a point dated before the one before it', () => {
    const later = beginPoint(someBench(), BESIDE, START + 1);
    expect(codeOf(() => beginPoint(later, BESIDE, START))).toBe('CONFLICT');
  });

  test('forty points are taken, one more is not', () => {
    let bench = someBench();
    for (let number = 1; number <= 40; number += 1) bench = beginPoint(bench, BESIDE, START);
    expect(bench.points.at(-1)?.number).toBe(40);
    expect(codeOf(() => beginPoint(bench, BESIDE, START))).toBe('LIMIT_EXCEEDED');
  });
});

test('every source has its cautions and its shortest soak', () => {
  for (const source of Object.values(BENCH_SOURCE)) {
    expect(benchCautions(source).length).toBeGreaterThan(0);
    expect(SOAK_LEAST_s[source]).toBeGreaterThan(0);
  }
});
