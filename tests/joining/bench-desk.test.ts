/** A bench from its opening to the calibrations that come of it. */
import { describe, expect, test } from 'vitest';
import { boilingPoint, saltPoint } from '../../services/core/calibration/index.js';
import type { BenchPointBody } from '../../services/core/model/bench.js';
import { formatTime } from '../../services/core/model/time.js';
import {
  type Approach,
  approaching,
  type BenchStation,
  benchOf,
  minuteAt,
  openBenchDesk,
  siteWithShelf,
} from '../support/bench-work.js';
import { BED } from '../support/calibrating.js';
import { openStation } from '../support/station.js';

const ICE: BenchPointBody = { source: 'ice-point' };
const BATH: BenchPointBody = { source: 'instrument', reference: 25, uncertainty: 0.05 };
const BOILING: BenchPointBody = { source: 'boiling-point', pressure_hPa: 880, pressureUncertainty_hPa: 1 };

/** By how much the two probes show too much. */
const OFF_C = { k01: 0.8, k02: -0.3 } as const;

/** Both probes from 20 °C on into a bath, for so many minutes; what they come to rest at is off by `OFF_C`. */
function intoBath(
  station: BenchStation,
  from: number,
  minutes: number,
  reference: number,
  more: Partial<Approach> = {},
) {
  for (const [probe, off] of Object.entries(OFF_C))
    station.commit(
      approaching({ probe, from, to: from + minutes, start: 20, end: reference + off, ...more }),
    );
  station.goTo(from + minutes);
}

const BOILING_C = boilingPoint(880, 1).temperature_C;

/** Ice, a bath and boiling water, a quarter of an hour in each. */
function inThreeBaths(station: BenchStation): string {
  const { id } = station.bench.open(benchOf()).bench;
  for (const [at, [body, reference]] of (
    [
      [ICE, 0],
      [BATH, 25],
      [BOILING, BOILING_C],
    ] as const
  ).entries()) {
    station.goTo(20 * at);
    station.bench.point(id, body);
    intoBath(station, 20 * at, 15, reference);
    station.bench.capture(id, {});
  }
  return id;
}

describe('a bench for temperature', () => {
  test('in ice, a bath and boiling water gives each probe its calibration', () => {
    const station = openBenchDesk();
    const id = inThreeBaths(station);
    const { bench, calibrations } = station.bench.finish(id, { fit: {} });
    expect(bench.bench).toMatchObject({ state: 'finished', endedAt: minuteAt(55) });
    expect(bench.bench.calibrations).toEqual(calibrations.map((record) => record.id));
    expect(
      bench.bench.points.map(({ label, captured }) => [label, captured.map(({ probe }) => probe)]),
    ).toEqual([
      ['ice point', ['k01', 'k02']],
      ['beside instrument', ['k01', 'k02']],
      ['boiling point at 880 hPa', ['k01', 'k02']],
    ]);
    for (const record of calibrations) {
      expect(record).toMatchObject({ doneAt: minuteAt(55), from: minuteAt(55), bench: id, by: 'bench-hand' });
      expect(record.fit).toMatchObject({ form: 'offset' });
      expect(record.points.map(({ source }) => source)).toEqual(['ice-point', 'instrument', 'boiling-point']);
    }
    const offsets = calibrations.map(({ fit }) => fit.coefficients[0]);
    expect(offsets[0]).toBeCloseTo(-OFF_C.k01, 2);
    expect(offsets[1]).toBeCloseTo(-OFF_C.k02, 2);
    expect(calibrations[0]?.points.map(({ reference }) => reference)).toEqual([0, 25, BOILING_C]);
    expect(calibrations.map(({ asFound }) => asFound.exceeds)).toEqual([true, false]);
  });

  test('calibrates what the probe measures in a bed afterwards', () => {
    const station = openBenchDesk();
    station.bench.finish(inThreeBaths(station), { fit: {} });
    const from = formatTime(minuteAt(100));
    station.load(siteWithShelf([{ bed: BED, x: 40, y: 30, depth: 20, from }]));
    station.commit(approaching({ probe: 'k01', from: 100, to: 101, every_s: 30, start: 20.8, end: 20.8 }));
    const [series] = station.views
      .series(BED, { from: minuteAt(0), to: minuteAt(1000), points: 100 })
      .filter(({ probe }) => probe === 'k01');
    expect(series?.time).toEqual([100, 100.5, 101].map(minuteAt));
    for (const value of series?.temperature_C ?? []) expect(value).toBeCloseTo(20, 1);
    expect(series?.temperatureDoubt).toEqual([null, null, null]);
  });

  test('goes on after a restart in the middle of a bath', () => {
    const before = openBenchDesk();
    const { id } = before.bench.open(benchOf()).bench;
    before.bench.point(id, ICE);
    intoBath(before, 0, 5, 0);
    before.close();
    const after = openBenchDesk({ station: openStation({ directory: before.directory }) });
    after.goTo(5);
    expect(after.bench.list(undefined, 'open', 10).map((one) => one.id)).toEqual([id]);
    expect(after.bench.get(id).bench.points).toHaveLength(1);
    for (const [probe, off] of Object.entries(OFF_C))
      after.commit(approaching({ probe, from: 5.5, to: 15, start: off, end: off }));
    after.goTo(15);
    expect(after.bench.get(id).settling.map(({ settled }) => settled)).toEqual([true, true]);
    expect(after.bench.capture(id, {}).bench.points[0]?.captured).toHaveLength(2);
    expect(after.bench.finish(id, { fit: {} }).calibrations).toHaveLength(2);
  });
});

describe('a bench for humidity', () => {
  test('over two salts gives offset and gain, at the temperatures of the jars', () => {
    const station = openBenchDesk();
    const { id } = station.bench.open(benchOf({ quantity: 'humidity', probes: ['k01'] })).bench;
    for (const [at, salt] of (['magnesium-chloride', 'sodium-chloride'] as const).entries()) {
      station.goTo(60 * at);
      const jar = { source: 'salt', salt, temperature_C: 22, temperatureUncertainty_C: 0.2 } as const;
      const { cautions } = station.bench.point(id, jar);
      expect(cautions.length).toBeGreaterThan(0);
      // It shows 1.1 of the humidity, less 2.
      const end = 1.1 * saltPoint(salt, 22, 0.2).humidity_RH - 2;
      const from = 60 * at;
      station.commit(
        approaching({
          probe: 'k01',
          quantity: 'humidity',
          from,
          to: from + 50,
          start: 50,
          end,
          constant_s: 300,
        }),
      );
      station.goTo(from + 50);
      station.bench.capture(id, {});
    }
    const { calibrations } = station.bench.finish(id, { fit: {} });
    const [record] = calibrations;
    expect(record).toMatchObject({ quantity: 'humidity', fit: { form: 'linear' } });
    expect(record?.points.map(({ temperature_C, source }) => [temperature_C, source])).toEqual([
      [22, 'salt'],
      [22, 'salt'],
    ]);
    // Of 50 %RH it shows 53.
    const corrected = station.station.calibrations.correct(
      station.station.directory.find('test-ridge', 'k01') as never,
      'humidity',
      minuteAt(110),
      53,
      22,
    );
    expect(corrected.value).toBeCloseTo(50, 1);
  });
});

describe('probes that settle', () => {
  test('are told apart from those that have not, with the time that is left', () => {
    const station = openBenchDesk();
    const { id } = station.bench.open(benchOf()).bench;
    expect(station.bench.get(id).settling).toEqual([]);
    station.bench.point(id, BATH);
    expect(station.bench.get(id).settling.map(({ settled, captured }) => [settled, captured])).toEqual([
      [false, false],
      [false, false],
    ]);
    station.commit(approaching({ probe: 'k01', from: 0, to: 12, start: 20, end: 25 }));
    station.commit(approaching({ probe: 'k02', from: 0, to: 12, start: 20, end: 25, constant_s: 300 }));
    station.goTo(12);
    const [first, second] = station.bench.get(id).settling;
    expect(first).toMatchObject({ probe: 'k01', settled: true });
    expect(second).toMatchObject({ probe: 'k02', settled: false });
    // By hand: slope 5 / 300 s exp(-720 / 300) = 0.0907 °C/min; 300 s ln(2 x 0.0907 / 0.01) + 150 s = 1019 s.
    expect(second?.remaining_s).toBeGreaterThan(900);
    expect(second?.remaining_s).toBeLessThan(1150);
  });

  test('are not captured while they drift: nothing is, and it is said how long it takes', () => {
    const station = openBenchDesk();
    const { id } = station.bench.open(benchOf()).bench;
    station.bench.point(id, BATH);
    station.commit(approaching({ probe: 'k01', from: 0, to: 12, start: 20, end: 25 }));
    station.commit(approaching({ probe: 'k02', from: 0, to: 12, start: 20, end: 25, constant_s: 300 }));
    station.goTo(12);
    expect(() => station.bench.capture(id, { probes: ['k01', 'k02'] })).toThrow(
      /^point 1: nothing captured; k02: still drifting by 0\.\d+ °C a minute, about 1[5-9] min more$/,
    );
    expect(station.bench.get(id).bench.points[0]?.captured).toEqual([]);
    const { bench, settling } = station.bench.capture(id, { probes: ['k01'] });
    expect(bench.points[0]?.captured.map(({ probe }) => probe)).toEqual(['k01']);
    expect(settling.map(({ captured }) => captured)).toEqual([true, false]);
  });

  test('are taken where no probe is named, and the others wait with their reason', () => {
    const station = openBenchDesk();
    const { id } = station.bench.open(benchOf()).bench;
    station.bench.point(id, BATH);
    station.commit(approaching({ probe: 'k01', from: 0, to: 12, start: 20, end: 25 }));
    station.commit(approaching({ probe: 'k02', from: 0, to: 12, start: 20, end: 25, constant_s: 300 }));
    station.goTo(12);
    const { bench, waiting } = station.bench.capture(id, {});
    expect(bench.points[0]?.captured.map(({ probe }) => probe)).toEqual(['k01']);
    expect(waiting).toEqual([
      { probe: 'k02', reason: expect.stringMatching(/^still drifting by .* about 1[5-9] min more$/) },
    ]);
    expect(station.bench.get(id).bench).toEqual(bench);
    expect(() => station.bench.capture(id, {})).toThrow(/^point 1: nothing captured; k02: still drifting/);
  });

  test('show their latest value from the first reading on, and when they can be judged', () => {
    const station = openBenchDesk();
    const { id } = station.bench.open(benchOf()).bench;
    station.bench.point(id, BATH);
    station.commit(approaching({ probe: 'k01', from: 0, to: 2, start: 20, end: 25 }));
    station.goTo(2);
    const [first, second] = station.bench.get(id).settling;
    expect(first?.shown).toEqual({
      count: 13,
      latest: { time: minuteAt(2), value: expect.closeTo(24.32, 1) },
    });
    expect(first?.earliest).toEqual({ needs_min: 5, left_s: 180 });
    expect([second?.shown, second?.earliest]).toEqual([undefined, { needs_min: 5, left_s: 300 }]);
  });

  test('by readings of this bath alone, however quiet the last one was', () => {
    const station = openBenchDesk();
    const { id } = station.bench.open(benchOf()).bench;
    station.bench.point(id, ICE);
    intoBath(station, 0, 15, 0);
    station.bench.capture(id, {});
    station.bench.point(id, BATH);
    expect(() => station.bench.capture(id, {})).toThrow(/k01: .*too few readings/);
  });

  test('by the newest readings, though they came in one go and out of order', () => {
    const station = openBenchDesk();
    const { id } = station.bench.open(benchOf({ probes: ['k01'] })).bench;
    station.bench.point(id, BATH);
    const readings = approaching({ probe: 'k01', from: 0, to: 15, start: 20, end: 25 });
    station.commit([...readings].reverse());
    station.commit(readings);
    station.goTo(15);
    const { bench } = station.bench.capture(id, {});
    expect(bench.points[0]?.captured[0]).toMatchObject({ to: minuteAt(15), at: minuteAt(15) });
    expect(bench.points[0]?.captured[0]?.indicated).toBeCloseTo(25, 2);
  });
});
