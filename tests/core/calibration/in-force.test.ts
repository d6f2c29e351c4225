import { describe, expect, test } from 'vitest';
import { inForceAt, inForceOver, standing } from '../../../services/core/calibration/index.js';
import type { Calibration } from '../../../services/core/model/calibration-record.js';
import { DAY_ms } from '../../../services/core/model/time.js';
import { CALIBRATED_AT, someCalibration } from '../../support/a-calibration.js';

const at = (day: number): number => CALIBRATED_AT + day * DAY_ms;

const record = (id: string, day: number, change: Partial<Calibration> = {}): Calibration =>
  someCalibration({ id, from: at(day), before: null, ...change });

/** The id in force on a day, of records in whatever order. */
const idAt = (records: readonly Calibration[], time: number): string | undefined =>
  inForceAt(inForceOver(records), time)?.calibration?.id;

describe('what is in force', () => {
  test('is nothing where there is no record, at any time', () => {
    const stretches = inForceOver([]);
    expect(stretches).toEqual([
      { calibration: null, from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY, drifted: false },
    ]);
    expect(inForceAt(stretches, 0)?.calibration).toBeNull();
  });

  test('is each from its own instant, to the millisecond, until the next', () => {
    const records = Object.freeze([record('second', 10), record('first', 0)]);
    expect(idAt(records, at(0) - 1)).toBeUndefined();
    expect(idAt(records, at(0))).toBe('first');
    expect(idAt(records, at(10) - 1)).toBe('first');
    expect(idAt(records, at(10))).toBe('second');
    expect(idAt(records, Number.MAX_SAFE_INTEGER)).toBe('second');
  });

  test('does not go by the order of the records, nor by when they were done', () => {
    const records = [record('a', 0, { doneAt: at(90) }), record('b', 5, { doneAt: at(1) }), record('c', 9)];
    const text = JSON.stringify(inForceOver(records));
    expect(JSON.stringify(inForceOver([...records].reverse()))).toBe(text);
    expect([-1, 0, 5, 9].map((day) => idAt(records, at(day)))).toEqual([undefined, 'a', 'b', 'c']);
  });

  test('covers all of time without a gap', () => {
    const stretches = inForceOver([record('b', 5), record('a', 0)]);
    expect(stretches.map(({ from, to }) => [from, to])).toEqual([
      [Number.NEGATIVE_INFINITY, at(0)],
      [at(0), at(5)],
      [at(5), Number.POSITIVE_INFINITY],
    ]);
  });

  test('at a time that is none is nothing', () => {
    expect(inForceAt(inForceOver([record('a', 0)]), Number.NaN)).toBeUndefined();
  });
});

describe('a record that another stands in the place of', () => {
  test('is as if it had never been', () => {
    const records = [record('wrong', 0), record('right', 3, { supersedes: 'wrong' })];
    expect(idAt(records, at(1))).toBeUndefined();
    expect(idAt(records, at(3))).toBe('right');
  });

  test('takes none of those before it along', () => {
    const records = [
      record('one', 0),
      record('two', 4, { supersedes: 'one' }),
      record('three', 2, { supersedes: 'two' }),
    ];
    expect(standing(records).map(({ id }) => id)).toEqual(['three']);
    expect([0, 2, 4].map((day) => idAt(records, at(day)))).toEqual([undefined, 'three', 'three']);
  });

  test('does not need to be among the records', () => {
    expect(standing([record('right', 3, { supersedes: 'elsewhere' })])).toHaveLength(1);
  });
});

describe('a probe that was found to have drifted', () => {
  const off = { ...someCalibration().asFound, exceeds: true };

  test('is marked from the calibration before to the one that found it, and not after', () => {
    const records = [
      record('a', 0),
      record('b', 5, { asFound: off, before: 'a' }),
      record('c', 9, { before: 'b' }),
    ];
    expect(inForceOver(records).map(({ drifted }) => drifted)).toEqual([false, true, false, false]);
  });

  test('is marked since ever where it had no calibration before', () => {
    expect(inForceOver([record('a', 0, { asFound: off })]).map(({ drifted }) => drifted)).toEqual([
      true,
      false,
    ]);
  });

  test('is no longer marked once the record that found it is replaced by one that does not', () => {
    const records = [
      record('a', 0),
      record('b', 5, { asFound: off, before: 'a' }),
      record('c', 5, { supersedes: 'b', before: 'a' }),
    ];
    expect(inForceOver(records).some(({ drifted }) => drifted)).toBe(false);
  });
});

/** Seven points of an instrument at which the probe is off by about 0.3 °C: within the tolerance once corrected. */
describe('a record that was entered between two others afterwards', () => {
  const later = someCalibration({ id: 'later', from: at(10), before: null });
  const tight = { ...later, asFound: { ...later.asFound, tolerance: 0.1, exceeds: true } };
  const between = record('between', 5, { asFound: later.asFound });

  test('is what the later one judges by: it had been corrected, and had not drifted', () => {
    expect(inForceOver([tight]).map(({ drifted }) => drifted)).toEqual([true, false]);
    expect(inForceOver([tight, between]).map(({ drifted }) => drifted)).toEqual([false, false, false]);
  });

  test('and is marked where by it the probe was found further off than the tolerance', () => {
    const wrong = {
      ...between,
      fit: { ...between.fit, coefficients: between.fit.coefficients.map((value) => value + 2) },
    };
    const sound = { ...tight, asFound: { ...tight.asFound, exceeds: false } };
    expect(inForceOver([sound, wrong]).map(({ drifted }) => drifted)).toEqual([false, true, false]);
  });
});
