/** A travelling reference beside a buried probe, over what is at rest. */
import { describe, expect, test } from 'vitest';
import type { FieldCheckBody } from '../../services/core/model/field-check.js';
import { HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { beside, bodyOf, openDesk, reading, refusalOf, START, shiftedBy } from '../support/calibrating.js';
import { NOW, openStation } from '../support/station.js';

/** p02 is the reference that travels: 20 °C half an hour about; p01 lies beside it and shows 0.3 °C more. */
const SIDE_BY_SIDE = Array.from({ length: 60 }, (_, half) => half / 2).flatMap((hour) => {
  const true_C = 20 + 0.2 * Math.sin(hour);
  return [reading(hour, 'p01', true_C + 0.3), reading(hour, 'p02', true_C + 1)];
});

const CHECK: FieldCheckBody = {
  ...{ site: 'test-ridge', probe: 'p01', reference: 'p02', quantity: 'temperature', by: 'bench-hand' },
  from: START,
  to: START + 24 * HOUR_ms,
};

/** The reference shows 1 °C too much, which its calibration takes away; so that p01 reads 0.3 °C too high. */
function open({ calibrated = true } = {}) {
  const station = openDesk();
  station.commit(SIDE_BY_SIDE);
  station.settle();
  if (calibrated) station.desk.add(bodyOf({ probe: 'p02', from: START, points: shiftedBy(-1) }));
  return station;
}

describe('a field check', () => {
  test('agrees where the probe is within what is asked of it, both corrected', () => {
    const station = open();
    const check = station.desk.checkInField(CHECK);
    expect(check).toMatchObject({ verdict: 'agrees', bound: 0.5, placeUncertainty: 0, probe: 'p01' });
    expect(check.difference).toBeCloseTo(0.3, 6);
    expect(check.pairs).toBeGreaterThanOrEqual(46);
    // Of the reference alone, k = 2: the offset and what its two points share, 2 sqrt(0.00375).
    expect(check.expandedUncertainty).toBeCloseTo(0.122, 2);
    expect(check.sentence).toMatch(/^The probe reads 0\.30 °C higher than the reference/);
  });

  test('disagrees beyond it, and says what to do', () => {
    const check = open().desk.checkInField({ ...CHECK, bound: 0.1 });
    expect(check).toMatchObject({ verdict: 'disagrees', bound: 0.1 });
    expect(check.sentence).toMatch(/Calibrate or replace the probe\.$/);
  });

  test('cannot be told where the two did not lie close enough', () => {
    const check = open().desk.checkInField({ ...CHECK, placeUncertainty: 0.2 });
    expect(check).toMatchObject({ verdict: 'undecided', placeUncertainty: 0.2 });
  });

  test('goes by the calibration of the probe too', () => {
    const station = open();
    station.desk.add(bodyOf({ from: START, points: shiftedBy(-0.3) }));
    const { difference, expandedUncertainty } = station.desk.checkInField({ ...CHECK, bound: 0.2 });
    expect(difference).toBeCloseTo(0, 6);
    expect(expandedUncertainty).toBeCloseTo(Math.hypot(0.122474, 0.122474), 2);
  });

  test('of a humidity corrects both at the temperature that each of them has', () => {
    const station = openDesk();
    const jar = (indicated: number, temperature_C: number) =>
      beside(indicated, 75, { referenceUncertainty: 0.5, temperature_C, source: 'salt' });
    for (let half = 0; half < 60; half += 1)
      station.commit([reading(half / 2, 'p01', 10, 74), reading(half / 2, 'p02', 30, 76)]);
    for (const probe of ['p01', 'p02'])
      station.desk.add(
        bodyOf({ probe, quantity: 'humidity', from: START, points: [jar(74, 10), jar(76, 30)] }),
      );
    expect(station.desk.checkInField({ ...CHECK, quantity: 'humidity' }).difference).toBeCloseTo(0, 6);
  });

  test('is kept, newest first, over a restart', () => {
    const station = open();
    const first = station.desk.checkInField(CHECK);
    const second = station.desk.checkInField({ ...CHECK, to: CHECK.to + 4 * HOUR_ms, note: 'longer' });
    station.close();
    const { desk } = openDesk(openStation({ directory: station.directory }));
    expect(desk.fieldChecks(undefined, undefined, 10)).toEqual([second, first]);
    expect(desk.fieldChecks('test-ridge', 'p01', 1)).toEqual([second]);
    expect(desk.fieldChecks('test-ridge', 'p02', 10)).toEqual([]);
    expect(desk.fieldChecks('other', undefined, 10)).toEqual([]);
  });
});

describe('refused, and not kept', () => {
  test.each<[string, Partial<FieldCheckBody>, boolean, RegExp]>([
    [
      'a reference without a calibration',
      {},
      false,
      /^CONFLICT: reference: expected a probe whose temperature has a calibration in force at 2026-05-04T08:00:00Z, got "p02"$/,
    ],
    [
      'a reference calibrated in another quantity',
      { quantity: 'humidity' },
      true,
      /^CONFLICT: reference: expected a probe whose humidity has/,
    ],
    [
      'a time to come',
      { from: NOW - HOUR_ms, to: NOW + 11 * MINUTE_ms },
      true,
      /^CONFLICT: to: expected a time that has come, got /,
    ],
    ['a reference calibrated only later', { from: START - HOUR_ms }, true, /^CONFLICT: reference: /],
    [
      'a probe that nobody knows',
      { probe: 'p77' },
      true,
      /^NOT_FOUND: no probe of site "test-ridge" has the id "p77"$/,
    ],
    ['a reference that nobody knows', { reference: 'p77' }, true, /^NOT_FOUND: .*"p77"$/],
    ['another site', { site: 'other' }, true, /^NOT_FOUND: no probe of site "other"/],
    ['too short a time', { to: START + 6 * HOUR_ms }, true, /^TOO_FEW_SAMPLES: field check: /],
    [
      'a time without readings',
      { from: START + 100 * HOUR_ms, to: START + 200 * HOUR_ms },
      true,
      /^TOO_FEW_SAMPLES: /,
    ],
  ])('%s', (_, change, calibrated, sentence) => {
    const { desk } = open({ calibrated });
    expect(refusalOf(() => desk.checkInField({ ...CHECK, ...change }))).toMatch(sentence);
    expect(desk.fieldChecks(undefined, undefined, 10)).toEqual([]);
  });
});
