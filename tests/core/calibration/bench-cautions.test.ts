import { describe, expect, test } from 'vitest';
import {
  type BenchSource,
  benchCautions,
  CAUTIONS,
  type CautionKey,
} from '../../../services/core/calibration/bench-cautions.js';
import { SALTS } from '../../../services/core/calibration/salts.js';

const SOURCES: readonly BenchSource[] = ['salt', 'ice', 'boiling-water', 'bath'];
const own = (formula: string): readonly CautionKey[] =>
  SALTS.find((salt) => salt.formula === formula)?.cautions ?? [];

test.each(Object.entries(CAUTIONS))('%s is one or two plain sentences', (_, text) => {
  expect(text.match(/[.](?= |$)/g)?.length).toBeLessThanOrEqual(2);
  expect(text.endsWith('.')).toBe(true);
  expect(text.length).toBeLessThan(240);
});

test.each(SOURCES)('%s has at least one, none twice', (source) => {
  const found = benchCautions(source);
  expect(found.length).toBeGreaterThan(0);
  expect(new Set(found).size).toBe(found.length);
});

test('no caution is never shown', () => {
  const shown = new Set([
    ...SOURCES.flatMap((source) => benchCautions(source)),
    ...SALTS.flatMap(({ cautions }) => benchCautions('salt', cautions)),
  ]);
  expect([...shown].sort()).toEqual(Object.values(CAUTIONS).sort());
});

describe('what must be said', () => {
  test('lithium chloride first of all, then every salt’s own', () => {
    const [first, ...rest] = benchCautions('salt', own('LiCl'));
    expect(first).toContain('harmful if swallowed');
    expect(rest).toEqual(benchCautions('salt'));
  });

  test.each(['Mg(NO3)2', 'KNO3'])('%s burns', (formula) => {
    expect(benchCautions('salt', own(formula))[0]).toContain('away from heat');
  });

  test('of every salt: gloves, dust, hands, local rules', () => {
    const all = benchCautions('salt').join(' ');
    for (const word of ['gloves', 'dust', 'wash your hands', 'rules of your place'])
      expect(all).toContain(word);
  });

  test.each<BenchSource>(['ice', 'boiling-water', 'bath'])('%s keeps the mains away', (source) => {
    expect(benchCautions(source).join(' ')).toContain('from a battery');
  });

  test('boiling water scalds', () => {
    expect(benchCautions('boiling-water')[0]).toContain('scald');
  });
});

test('a key given that the source has already is shown once', () => {
  expect(benchCautions('salt', ['salt-dust', 'salt-dust'])).toEqual(benchCautions('salt'));
});
