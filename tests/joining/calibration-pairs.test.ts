/** Calibrations from a file of pairs: all of it or nothing. And when the next fall due. */
import { describe, expect, test } from 'vitest';
import { DAY_ms, HOUR_ms } from '../../services/core/model/time.js';
import type { PairsBody } from '../../services/http/index.js';
import { bodyOf, judgedText, reading, refusalOf, START, seriesOf } from '../support/calibrating.js';
import {
  expectNothingKept,
  GOOD,
  HEADER,
  kept,
  OF_P02,
  type Opened,
  open,
  pairs,
} from '../support/pairs-files.js';
import { SHORT_SEASON, siteOf } from '../support/season.js';
import { NOW } from '../support/station.js';

describe('a file of pairs', () => {
  test('makes a calibration for each probe and quantity in it', () => {
    const station = open();
    const answer = station.desk.pairs(pairs([HEADER, ...GOOD, ...OF_P02]));
    expect(answer).toMatchObject({ badLines: [], kept: true });
    expect(answer.calibrations.map(({ probe, quantity }) => [probe, quantity])).toEqual([
      ['p01', 'temperature'],
      ['p02', 'humidity'],
    ]);
    expect(answer.calibrations.every(({ points }) => points.length === 2)).toBe(true);
    expect(seriesOf(station, 'p01').temperature_C).toEqual([20, 20, 19, 19]);
    expect(seriesOf(station, 'p02').humidity_RH).toEqual([50, 50, 55, 55]);
  });

  test('takes the probe, the quantity and the uncertainty that it does not say from beside it', () => {
    const station = open();
    const csv = ['indicated;reference', '10,0;9,0', '30,0;29,0'];
    const beside = { probe: 'p01', quantity: 'temperature', uncertainty: 0.05 } as const;
    const { calibrations } = station.desk.pairs(pairs(csv, { ...beside, from: START }));
    expect(calibrations[0]).toMatchObject({ probe: 'p01', from: START, fit: { coefficients: [-1] } });
    expect(seriesOf(station, 'p01').temperature_C).toEqual([19, 19, 19, 19]);
  });

  test('shows what would come of it and keeps nothing', () => {
    const station = open();
    const answer = station.desk.pairs(pairs([HEADER, ...GOOD], { dryRun: true }));
    expect(answer).toMatchObject({
      kept: false,
      calibrations: [{ probe: 'p01', fit: { coefficients: [-1] } }],
    });
    expectNothingKept(station);
    expect(station.desk.pairs(pairs([HEADER, ...GOOD])).kept).toBe(true);
  });

  test('with lines that are not understood names each and keeps nothing of the others', () => {
    const station = open();
    const answer = station.desk.pairs(pairs([HEADER, ...GOOD, 'p01,temperature,x,9,0.05', 'p02,rain,1,2,3']));
    expect(answer).toMatchObject({ kept: false, calibrations: [] });
    expect(answer.badLines.map(({ line }) => line)).toEqual([4, 5]);
    expectNothingKept(station);
  });

  test.each<[string, string[], Partial<PairsBody>, RegExp]>([
    [
      'no probe anywhere',
      ['indicated,reference,uncertainty', '10,9,1'],
      { quantity: 'temperature' },
      /^BAD_REQUEST: line 2: expected a column "probe", or one probe for the whole file, got neither$/,
    ],
    ['a header that is none', ['what,is,this', '1,2,3'], {}, /^BAD_REQUEST: header of the pairs: /],
    [
      'no uncertainty anywhere',
      ['probe,quantity,indicated,reference', 'p01,temperature,10,9'],
      {},
      /^BAD_REQUEST: header of the pairs: expected a column uncertainty/,
    ],
    [
      'a probe that nobody knows',
      [HEADER, ...GOOD, 'p77,temperature,10,9,0.05'],
      {},
      /^NOT_FOUND: probe: .*"p77"$/,
    ],
    [
      'a gain asked of too few',
      [HEADER, ...GOOD, 'p02,temperature,10,9,0.05'],
      { fit: { form: 'linear' } },
      /^TOO_FEW_SAMPLES: /,
    ],
    ['a time before the probes were there', [HEADER, ...GOOD], { from: START - 1 }, /^CONFLICT: from: /],
    [
      'a header alone',
      [HEADER],
      {},
      /^TOO_FEW_SAMPLES: pairs: expected at least one line after the header, got none$/,
    ],
  ])('with %s is refused, and nothing of it is kept', (_, lines, change, sentence) => {
    const station = open();
    expect(refusalOf(() => station.desk.pairs(pairs(lines, change)))).toMatch(sentence);
    expectNothingKept(station);
  });

  test('of two probes is kept for both or for none, whichever of them fails', () => {
    const station = open();
    station.desk.add(bodyOf({ probe: 'p02', points: [...bodyOf().points] }));
    const both = [...GOOD, ...GOOD.map((line) => line.replace('p01', 'p02'))];
    for (const lines of [both, [...both].reverse()]) {
      expect(refusalOf(() => station.desk.pairs(pairs([HEADER, ...lines])))).toMatch(/of probe p02 holds/);
      expect(kept(station)).toBe(1);
      expect(seriesOf(station, 'p01').temperature_C).toEqual([20, 20, 20, 20]);
      expect(seriesOf(station, 'p02').temperature_C).toEqual([20, 20, 19, 19]);
    }
  });

  test('does not take points to leave out by their number where it holds several calibrations', () => {
    const station = open();
    const fit = { leaveOut: [{ index: 0, reason: 'spilt' }] };
    expect(refusalOf(() => station.desk.pairs(pairs([HEADER, ...GOOD, ...OF_P02], { fit })))).toBe(
      'BAD_REQUEST: fit.leaveOut: expected a file of one probe and one quantity, got 2 of them: the numbers would mean other points of each',
    );
    expectNothingKept(station);
    expect(station.desk.pairs(pairs([HEADER, ...GOOD], { fit })).calibrations[0]?.fit.leftOut).toHaveLength(
      1,
    );
  });
});

describe('when the store fails in the middle of a file', () => {
  const lines = [HEADER, ...GOOD, ...GOOD.map((line) => line.replace('p01', 'p02'))];

  /** The disk takes one calibration and then no more. */
  function failing(station: Opened): void {
    station.database.exec(`CREATE TRIGGER full BEFORE INSERT ON calibration
      WHEN (SELECT count(*) FROM calibration) >= 1 BEGIN SELECT RAISE(ABORT, 'disk is full'); END`);
  }

  test('nothing is kept, what is remembered is right, and the file can be sent again', () => {
    const station = open();
    const before = judgedText(station);
    failing(station);
    // From the start on: hours that were judged are to be judged again.
    expect(() => station.desk.pairs(pairs(lines, { from: START }))).toThrow('disk is full');
    station.settle();
    expectNothingKept(station);
    expect(judgedText(station)).toBe(before);
    station.database.exec('DROP TRIGGER full');
    expect(station.desk.pairs(pairs(lines)).kept).toBe(true);
    for (const probe of ['p01', 'p02'])
      expect(seriesOf(station, probe).temperature_C).toEqual([20, 20, 19, 19]);
    station.settle();
    expect(station.station.dirty()).toEqual([]);
  });

  test('what was read of it in between is forgotten too', () => {
    const station = open();
    const inForce = () => station.station.calibrations.inForce('test-ridge', 'p01', 'temperature', NOW)?.id;
    const body = bodyOf({ from: START });
    const failing = () =>
      station.station.inTransaction(() => {
        const { id } = station.desk.write({ ...body, from: START });
        expect(inForce()).toBe(id);
        throw new Error('power is gone');
      });
    expect(failing).toThrow('power is gone');
    expect(inForce()).toBeUndefined();
    station.settle();
    expectNothingKept(station);
  });

  test('readings go on being taken in, corrected as before', () => {
    const station = open();
    station.desk.add(bodyOf({ from: START, points: [...bodyOf().points] }));
    failing(station);
    expect(() => station.desk.pairs(pairs(lines))).toThrow('disk is full');
    station.commit([reading(4, 'p01', 20)]);
    expect(seriesOf(station, 'p01').temperature_C).toEqual([19, 19, 19, 19, 19]);
  });
});

describe('what is due', () => {
  const often = { ...(siteOf(SHORT_SEASON) as { site: object; beds: object[] }) };
  const site = {
    ...often.site,
    thresholds: { calibrate_temperature_days: 100, calibrate_humidity_days: 30 },
  };
  const doneAt = NOW - 40 * DAY_ms;

  test('is first due first, with every probe and quantity of the site, never calibrated ones last', () => {
    const { desk } = open({ ...often, site });
    const warmth = desk.add(bodyOf({ doneAt }));
    const damp = desk.add({ ...bodyOf({ doneAt, quantity: 'humidity' }), points: [...bodyOf().points] });
    const due = desk.due();
    expect(due).toHaveLength(8);
    expect(due.slice(0, 3)).toEqual([
      {
        ...{ site: 'test-ridge', probe: 'p01', quantity: 'humidity', calibration: damp.id },
        ...{ dueAt: doneAt + 30 * DAY_ms, isDue: true },
      },
      {
        ...{ site: 'test-ridge', probe: 'p01', quantity: 'temperature', calibration: warmth.id },
        ...{ dueAt: doneAt + 100 * DAY_ms, isDue: false },
      },
      {
        ...{ site: 'test-ridge', probe: 'p02', quantity: 'temperature', calibration: null },
        ...{ dueAt: null, isDue: false },
      },
    ]);
  });

  test('goes by when it was done, not by the time from which it holds', () => {
    const { desk } = open({ ...often, site });
    desk.add(bodyOf({ doneAt, from: START }));
    expect(desk.due()[0]).toMatchObject({ dueAt: doneAt + 100 * DAY_ms, isDue: false });
  });

  test('is due at the very instant', () => {
    const { desk } = open({ ...often, site });
    desk.add(bodyOf({ doneAt: NOW - 100 * DAY_ms }));
    desk.add(bodyOf({ probe: 'p02', doneAt: NOW - 100 * DAY_ms + 1 }));
    expect(
      desk
        .due()
        .map(({ probe, isDue }) => [probe, isDue])
        .slice(0, 2),
    ).toEqual([
      ['p01', true],
      ['p02', false],
    ]);
  });

  test('goes by what is asked in the bed where the probe stands, as the alarm does', () => {
    const beds = often.beds.map((bed) => ({ ...bed, thresholds: { calibrate_temperature_days: 7 } }));
    const { desk } = open({ ...often, site, beds });
    desk.add(bodyOf({ doneAt }));
    desk.add(bodyOf({ probe: 'p09', doneAt }));
    expect(desk.due().slice(0, 2)).toMatchObject([
      { probe: 'p01', dueAt: doneAt + 7 * DAY_ms, isDue: true },
      { probe: 'p09', dueAt: doneAt + 100 * DAY_ms, isDue: false },
    ]);
  });

  test('is nothing of a calibration that holds no longer', () => {
    const { desk } = open({ ...often, site });
    desk.add(bodyOf({ doneAt: START + HOUR_ms }));
    const { id } = desk.add(bodyOf({ doneAt }));
    expect(desk.due()[0]).toMatchObject({ calibration: id, isDue: false });
  });
});
