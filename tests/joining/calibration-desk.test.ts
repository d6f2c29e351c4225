/** What comes of a calibration: values, their uncertainty, what is in force, and what is refused. */
import { describe, expect, test } from 'vitest';
import type { Calibration, CalibrationBody } from '../../services/core/model/calibration-record.js';
import { DAY_ms, HOUR_ms } from '../../services/core/model/time.js';
import {
  BED,
  beside,
  bodyOf,
  openDesk,
  reading,
  refusalOf,
  SHIFTED_U_C,
  START,
  seriesOf,
  shiftedBy,
} from '../support/calibrating.js';
import { SHORT_SEASON, siteOf } from '../support/season.js';
import { NOW, openStation } from '../support/station.js';

/** p01 shows 20 °C and 50 %RH at hours 0 to 5, p02 the same. */
const FLAT = [0, 1, 2, 3, 4, 5].flatMap((hour) => [
  reading(hour, 'p01', 20, 50),
  reading(hour, 'p02', 20, 50),
]);

function open() {
  const station = openDesk();
  station.commit(FLAT);
  station.settle();
  return station;
}

const hourAt = (hour: number): number => START + hour * HOUR_ms;
const from = (hour: number, change: Partial<CalibrationBody> = {}): CalibrationBody =>
  bodyOf({ from: hourAt(hour), ...change });

describe('a calibration', () => {
  test('corrects the series from its time on, with an uncertainty, and leaves what came before', () => {
    const station = open();
    const record = station.desk.add(bodyOf());
    expect(record).toMatchObject({ from: hourAt(2), doneAt: hourAt(2), fit: { form: 'offset' } });
    const { temperature_C, temperatureUncertainty_C, humidity_RH } = seriesOf(station, 'p01');
    expect(temperature_C).toEqual([20, 20, 19, 19, 19, 19]);
    const u = SHIFTED_U_C;
    expect(temperatureUncertainty_C).toEqual([null, null, u, u, u, u]);
    expect(humidity_RH).toEqual([50, 50, 50, 50, 50, 50]);
    expect(seriesOf(station, 'p02').temperature_C).toEqual([20, 20, 20, 20, 20, 20]);
  });

  test('with a gain corrects each value by its own: 0.9 of it from 10 °C on, 1 °C above', () => {
    const station = open();
    station.commit([reading(6, 'p01', 30), reading(7, 'p01', 10)]);
    station.desk.add(from(0, { points: [beside(10, 11), beside(20, 20), beside(30, 29)] }));
    expect(seriesOf(station, 'p01').temperature_C.slice(-3)).toEqual([20, 29, 11]);
  });

  test('is to be doubted in the latest values beyond its range, as in series', () => {
    const station = openDesk();
    station.commit([reading(5, 'p01', 35, 50)]);
    station.desk.add(bodyOf());
    const latest = station.views.bed(BED).probes[0]?.latest;
    expect(latest).toMatchObject({ temperature_C: 34, temperatureDoubt: 'outside' });
    expect(latest).not.toHaveProperty('humidityDoubt');
    expect(seriesOf(station, 'p01').temperatureDoubt).toEqual(['outside']);
    const points = [beside(70, 75), beside(80, 85)];
    station.desk.add(bodyOf({ quantity: 'humidity', points }));
    expect(station.views.bed(BED).probes[0]?.latest).toMatchObject({ humidityDoubt: 'outside' });
  });

  test('is in the latest values of the bed, raw ones stay at rest', () => {
    const station = open();
    const latest = () => station.views.bed(BED).probes[0]?.latest;
    expect(latest()).toEqual({ at: hourAt(5), temperature_C: 20, humidity_RH: 50 });
    station.desk.add(bodyOf());
    expect(latest()).toMatchObject({
      temperature_C: 19,
      temperatureUncertainty_C: SHIFTED_U_C,
      humidity_RH: 50,
    });
    expect(latest()).not.toHaveProperty('humidityUncertainty_RH');
    expect(latest()).not.toHaveProperty('temperatureDoubt');
    const key = station.station.directory.find('test-ridge', 'p01')?.key ?? -1;
    expect(station.archive.readings.latest(key)).toMatchObject({ temperature: 20, humidity: 50 });
  });

  test('corrects what comes later, over a restart too', () => {
    const station = open();
    station.desk.add(bodyOf());
    station.close();
    const after = openStation({ directory: station.directory });
    after.commit([reading(6, 'p01', 25)]);
    expect(seriesOf(after, 'p01').temperature_C).toEqual([20, 20, 19, 19, 19, 19, 24]);
  });

  test('from now on leaves all of the past alone', () => {
    const station = open();
    const before = JSON.stringify(seriesOf(station, 'p01'));
    station.desk.add(bodyOf({ doneAt: NOW, points: shiftedBy(-0.2) }));
    expect(station.station.dirty()).toEqual([]);
    expect(JSON.stringify(seriesOf(station, 'p01'))).toBe(before);
  });

  test('dated back corrects the past, and one between two others only until the later', () => {
    const station = open();
    station.desk.add(from(4, { points: shiftedBy(-3) }));
    station.desk.add(from(1, { points: shiftedBy(-1) }));
    expect(seriesOf(station, 'p01').temperature_C).toEqual([20, 19, 19, 19, 17, 17]);
  });

  test('counts for a reading of its very instant', () => {
    const station = open();
    station.desk.add(from(3 + 1 / 3_600_000));
    expect(seriesOf(station, 'p01').temperature_C).toEqual([20, 20, 20, 20, 19, 19]);
    station.desk.add(from(3, { points: shiftedBy(-2) }));
    expect(seriesOf(station, 'p01').temperature_C[3]).toBe(18);
  });

  test('of a probe that nobody described yet counts once it is adopted', () => {
    const station = openStation();
    station.commit(FLAT);
    const { desk } = openDesk(station, {
      ...(siteOf(SHORT_SEASON) as object),
      beds: [],
      people: [],
      probes: [],
    });
    expect(desk.existsSince('test-ridge', 'p01')).toBe(START);
    desk.add(bodyOf());
    station.load(siteOf(SHORT_SEASON));
    station.settle();
    expect(seriesOf(station, 'p01').temperature_C).toEqual([20, 20, 19, 19, 19, 19]);
  });
});

describe('a calibration in the place of another', () => {
  test('replaces it entirely, also where it holds from later on', () => {
    const station = open();
    const wrong = station.desk.add(from(1, { points: shiftedBy(-7) }));
    const right = station.desk.add(from(3, { supersedes: wrong.id }));
    expect(seriesOf(station, 'p01').temperature_C).toEqual([20, 20, 20, 19, 19, 19]);
    expect(station.desk.supersededBy(wrong)).toBe(right.id);
    expect(station.desk.supersededBy(right)).toBeNull();
    expect([wrong, right].map((record) => station.desk.isInForce(record))).toEqual([false, true]);
    expect(station.desk.get(wrong.id)).toEqual(wrong);
  });

  test('marks as drifted by what it replaced no longer', () => {
    const station = open();
    const wrong = station.desk.add(from(1, { points: shiftedBy(-7) }));
    expect(seriesOf(station, 'p01').temperatureDoubt[0]).toBe('drifted');
    station.desk.add(from(1, { points: shiftedBy(-0.1), supersedes: wrong.id }));
    expect(seriesOf(station, 'p01').temperatureDoubt).toEqual([null, null, null, null, null, null]);
  });
});

describe('what is to be doubted is marked', () => {
  test('beyond the values that were calibrated, however little, and never within them', () => {
    const station = open();
    station.commit([
      reading(6, 'p01', 30),
      reading(7, 'p01', 30.1),
      reading(8, 'p01', 9.9),
      reading(9, 'p01', 10),
    ]);
    station.desk.add(from(0, { points: shiftedBy(-0.3) }));
    expect(seriesOf(station, 'p01').temperatureDoubt.slice(-5)).toEqual([
      null,
      null,
      'outside',
      'outside',
      null,
    ]);
  });

  test('from the calibration before on, of a probe found further off than its tolerance', () => {
    const station = open();
    station.desk.add(from(1, { points: shiftedBy(-0.1) }));
    station.desk.add(from(4, { points: shiftedBy(-0.7) }));
    const doubts = seriesOf(station, 'p01').temperatureDoubt;
    expect(doubts).toEqual([null, 'drifted', 'drifted', 'drifted', null, null]);
  });

  test('not within the tolerance, which the site may set', () => {
    const site = siteOf(SHORT_SEASON) as { site: object };
    const wide = openDesk(undefined, {
      ...site,
      site: { ...site.site, thresholds: { probe_tolerance_C: 2 } },
    });
    wide.commit(FLAT);
    wide.desk.add(from(3, { points: shiftedBy(-1.9) }));
    expect(seriesOf(wide, 'p01').temperatureDoubt).toEqual([null, null, null, null, null, null]);
    wide.desk.add(from(4, { points: shiftedBy(-4) }));
    expect(seriesOf(wide, 'p01').temperatureDoubt).toEqual([null, null, null, 'drifted', null, null]);
  });

  test('whatever was entered first: a calibration entered late takes the mark of the time that it corrects', () => {
    const [one, other] = [open(), open()];
    const early = from(1, { points: shiftedBy(-2) });
    const late = from(4, { points: shiftedBy(-2.1) });
    for (const body of [early, late]) one.desk.add(body);
    for (const body of [late, early]) other.desk.add(body);
    const doubts = seriesOf(one, 'p01').temperatureDoubt;
    expect(doubts).toEqual(['drifted', null, null, null, null, null]);
    expect(seriesOf(other, 'p01').temperatureDoubt).toEqual(doubts);
  });
});

describe('the list', () => {
  function filled() {
    const station = open();
    const add = (body: CalibrationBody): Calibration => station.desk.add(body);
    const [a, b, c] = [add(from(1)), add(from(3)), add(from(1, { probe: 'p02' }))];
    const d = add(from(2, { quantity: 'humidity', points: [beside(40, 45), beside(80, 85)] }));
    return { station, ids: { a: a.id, b: b.id, c: c.id, d: d.id } };
  }

  test('is newest first by the time from which they hold, and keeps to what is asked', () => {
    const { station, ids } = filled();
    const list = (query: object): string[] => station.desk.list({ limit: 100, ...query }).map(({ id }) => id);
    expect(list({}).slice(0, 2)).toEqual([ids.b, ids.d]);
    expect(list({ limit: 1 })).toEqual([ids.b]);
    expect(list({ probe: 'p02' })).toEqual([ids.c]);
    expect(list({ quantity: 'humidity' })).toEqual([ids.d]);
    expect(list({ site: 'other' })).toEqual([]);
    expect(list({ probe: 'p01', inForce: true })).toEqual([ids.b, ids.d]);
    expect(list({ inForce: true, limit: 2 })).toEqual([ids.b, ids.d]);
    expect(list({ inForce: false, probe: 'p01' })).toHaveLength(3);
  });

  test('has nothing of an id that is none', () => {
    expect(refusalOf(() => open().desk.get('nothing'))).toBe(
      'NOT_FOUND: no calibration has the id "nothing"',
    );
  });
});

describe('refused', () => {
  test.each<[string, Partial<CalibrationBody>, RegExp]>([
    [
      'dated before the probe was there',
      { from: START - 1 },
      /^CONFLICT: from: expected a time since which probe p01 is known, 2026-05-04T08:00:00Z, got 2026-05-04T07:59:59.999Z/,
    ],
    [
      'done in the future',
      { doneAt: NOW + HOUR_ms },
      /^CONFLICT: doneAt: expected a time that has come, got 2027-01-01T01:00:00Z while it is 2027-01-01T00:00:00Z here$/,
    ],
    ['from the future on', { from: NOW + DAY_ms }, /^CONFLICT: from: expected a time that has come/],
    [
      'of a probe that nobody knows',
      { probe: 'p77' },
      /^NOT_FOUND: probe: expected one that site "test-ridge" describes or that has sent readings, got "p77"$/,
    ],
    ['of another site', { site: 'other' }, /^NOT_FOUND: probe: expected one that site "other" describes/],
    [
      'in the place of one that is none',
      { supersedes: 'x' },
      /^CONFLICT: supersedes: .*got "x", which is none$/,
    ],
    ['without points', { points: [] }, /^TOO_FEW_SAMPLES: /],
    ['with kelvin for degrees', { points: [beside(20, 293)] }, /^OUT_OF_DOMAIN: point 0: /],
  ])('%s, and nothing is kept', (_, change, sentence) => {
    const station = open();
    expect(refusalOf(() => station.desk.add(bodyOf(change)))).toMatch(sentence);
    expect(station.registry.calibrations.count()).toBe(0);
    expect(seriesOf(station, 'p01').temperature_C).toEqual([20, 20, 20, 20, 20, 20]);
  });

  test('two from the same instant; the humidity of the same probe has its own', () => {
    const station = open();
    const first = station.desk.add(bodyOf());
    expect(refusalOf(() => station.desk.add(bodyOf({ points: shiftedBy(-2) })))).toMatch(
      new RegExp(`^CONFLICT: from: expected a time of its own, .* from which calibration ${first.id} `),
    );
    station.desk.add(bodyOf({ quantity: 'humidity', points: [beside(40, 45), beside(80, 85)] }));
    expect(station.registry.calibrations.count()).toBe(2);
  });

  test('the place of a calibration of another quantity', () => {
    const station = open();
    const { id } = station.desk.add(
      bodyOf({ quantity: 'humidity', points: [beside(40, 45), beside(80, 85)] }),
    );
    expect(refusalOf(() => station.desk.add(bodyOf({ supersedes: id })))).toMatch(/which is none$/);
  });
});
