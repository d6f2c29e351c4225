/** Which probes may lie on a bench, what is kept of them, and how a bench ends. */
import { describe, expect, test } from 'vitest';
import { openBench } from '../../services/core/calibration/index.js';
import type { BenchBody, FinishBody } from '../../services/core/model/bench.js';
import { formatTime } from '../../services/core/model/time.js';
import {
  approaching,
  type BenchStation,
  benchOf,
  minuteAt,
  openBenchDesk,
  siteWithShelf,
} from '../support/bench-work.js';
import { BED, refusalOf } from '../support/calibrating.js';
import { openStation } from '../support/station.js';

const BATH = { source: 'instrument', reference: 25, uncertainty: 0.05 } as const;

/** Readings of a probe that rests at a value. */
const resting = (probe: string, from: number, minutes: number, end: number) =>
  approaching({ probe, from, to: from + minutes, start: end, end });

/** An open bench on which both probes were captured in one bath; k01 shows 1 °C too much. */
function captured(probes: readonly string[] = ['k01', 'k02'], waits: readonly string[] = []) {
  const station = openBenchDesk();
  const { id } = station.bench.open(benchOf({ probes: [...probes, ...waits] })).bench;
  station.bench.point(id, BATH);
  for (const probe of probes) station.commit(resting(probe, 0, 10, probe === 'k01' ? 26 : 25));
  station.goTo(10);
  station.bench.capture(id, { probes });
  return { ...station, id };
}

const asked = (change: Partial<FinishBody> = {}): FinishBody => ({ fit: {}, ...change });

const reasonsOf = (station: BenchStation): string[] =>
  station.archive.quarantine.list(50).map(({ reason }) => reason);

/** A site whose probe k01 is to stand in the bed later. */
const placedLater = () =>
  siteWithShelf([{ bed: BED, x: 40, y: 30, depth: 20, from: formatTime(minuteAt(600)) }]);

test('readings of a probe that has no placement, as of a travelling reference, are kept', () => {
  expect(openBenchDesk().commit(resting('k01', -5, 1, 20))).toMatchObject({ kept: 7 });
});

describe('readings of a probe that does not stand yet', () => {
  test('are kept while it lies on an open bench, and set aside before and after', () => {
    const station = openBenchDesk({ site: placedLater() });
    const key = station.station.directory.find('test-ridge', 'k01')?.key ?? -1;
    const times = () => station.archive.readings.samples(key, 0, Number.MAX_SAFE_INTEGER).length;
    station.commit(resting('k01', -5, 1, 20));
    expect([times(), reasonsOf(station)[0]]).toEqual([0, 'before-placement']);
    const { id } = station.bench.open(benchOf()).bench;
    station.commit(resting('k01', -4, 1, 20));
    expect(times()).toBe(0);
    station.commit(resting('k01', 0, 1, 20));
    expect(times()).toBe(7);
    station.bench.giveUp(id, 'the bath leaks');
    station.commit(resting('k01', 5, 1, 20));
    expect(times()).toBe(7);
  });

  test('are kept over a restart', () => {
    const before = openBenchDesk();
    before.bench.open(benchOf());
    before.close();
    const after = openStation({ directory: before.directory });
    expect(after.commit(resting('k01', 0, 1, 20))).toMatchObject({ kept: 7 });
  });

  test('that is placed later are kept from the bench, and judged in no bed', () => {
    const from = formatTime(minuteAt(600));
    const station = openBenchDesk({ site: siteWithShelf([{ bed: BED, x: 40, y: 30, depth: 20, from }]) });
    station.bench.open(benchOf());
    expect(station.commit(resting('k01', 0, 10, 99))).toMatchObject({ kept: 61 });
    station.settle();
    const all = { from: minuteAt(-100), to: minuteAt(10_000), points: 100 };
    expect(station.views.series(BED, all)).toEqual([]);
    expect(station.views.alarms({ limit: 10 }).alarms).toEqual([]);
    expect(station.views.bed(BED).probes.find(({ id }) => id === 'k01')?.latest).toBeNull();
  });

  test('are not kept because of a bench that failed to open', () => {
    const station = openBenchDesk({ site: placedLater() });
    expect(() => station.bench.open(benchOf({ probes: ['k01', 'p01'] }))).toThrow();
    expect(station.commit(resting('k01', 0, 1, 20))).toMatchObject({ kept: 0 });
    expect(station.bench.list(undefined, undefined, 10)).toEqual([]);
  });
});

test('a bench that was undone in the middle keeps no readings', () => {
  const { station, registry, bench, commit } = openBenchDesk({ site: placedLater() });
  const undone = () =>
    station.inTransaction(() => {
      registry.benches.add(openBench(benchOf(), 'b1', minuteAt(0)), minuteAt(0));
      station.noteBench();
      expect(station.benchSince('test-ridge', 'k01')).toBe(minuteAt(0));
      throw new Error('power is gone');
    });
  expect(undone).toThrow('power is gone');
  expect(commit(resting('k01', 0, 1, 20))).toMatchObject({ kept: 0 });
  expect(bench.list(undefined, undefined, 10)).toEqual([]);
});

describe('probes that nobody described', () => {
  test('are calibrated by what is kept apart, and keep it when they are adopted', () => {
    const station = openBenchDesk();
    station.commit(resting('x01', -10, 1, 20));
    const { id } = station.bench.open(benchOf({ probes: ['x01'] })).bench;
    station.bench.point(id, BATH);
    expect(station.commit(resting('x01', 0, 10, 26))).toMatchObject({ apart: 61 });
    station.goTo(10);
    station.bench.capture(id, {});
    const [record] = station.bench.finish(id, asked()).calibrations;
    expect(record).toMatchObject({ probe: 'x01', from: minuteAt(10), fit: { form: 'offset' } });
    const site = siteWithShelf() as { probes: object[] };
    const placement = { bed: BED, x: 40, y: 30, depth: 20, from: formatTime(minuteAt(0)) };
    station.load({ ...site, probes: [...site.probes, { id: 'x01', placements: [placement] }] });
    station.settle();
    const all = { from: minuteAt(0), to: minuteAt(20), points: 100 };
    const [series] = station.views.series(BED, all).filter(({ probe }) => probe === 'x01');
    expect(series?.temperature_C[0]).toBe(26);
    expect(series?.temperature_C.at(-1)).toBeCloseTo(25, 1);
  });
});

describe('a bench is not opened', () => {
  test.each<[string, Partial<BenchBody>, RegExp]>([
    [
      'with a probe that stands in a bed',
      { probes: ['k01', 'p01'] },
      /^CONFLICT: probe p01: expected one that lies in no bed and hangs in no shade, but by the site description it is in bed "pit-t": take it out first \(at Settings, Probes, or by a "to" in its placement\), or its readings in the bath would be judged as those of sand$/,
    ],
    [
      'with a probe in the shade',
      { probes: ['p09'] },
      /^CONFLICT: probe p09: .* it is in the shade: .* as those of the air$/,
    ],
    ['with a probe that nobody knows', { probes: ['k01', 'x99'] }, /^NOT_FOUND: probe: .*"x99"$/],
    ['at a site that is none', { site: 'other' }, /^NOT_FOUND: /],
  ])('%s', (_, change, sentence) => {
    const station = openBenchDesk();
    expect(refusalOf(() => station.bench.open(benchOf(change)))).toMatch(sentence);
    expect(station.bench.list(undefined, undefined, 10)).toEqual([]);
  });

  test('with a probe on another bench, until that has ended', () => {
    const { bench } = openBenchDesk();
    const { id } = bench.open(benchOf({ probes: ['k01'] })).bench;
    expect(refusalOf(() => bench.open(benchOf()))).toBe(
      `CONFLICT: probe k01: expected one that is on no bench, but it is on bench ${id}: finish that or give it up`,
    );
    bench.giveUp(id, 'wrong probe');
    expect(bench.open(benchOf()).bench.state).toBe('open');
  });

  test('before a placement has ended, and is from then on', () => {
    const placement = {
      bed: BED,
      x: 40,
      y: 30,
      depth: 20,
      from: formatTime(minuteAt(-900)),
      to: formatTime(minuteAt(10)),
    };
    const station = openBenchDesk({ site: siteWithShelf([placement]) });
    expect(refusalOf(() => station.bench.open(benchOf()))).toMatch(/^CONFLICT: probe k01/);
    station.goTo(10);
    expect(station.bench.open(benchOf()).bench.startedAt).toBe(minuteAt(10));
  });
});

describe('what would come of a bench', () => {
  test('is shown probe by probe, with why there would be none, and nothing is kept', () => {
    const station = captured(['k01'], ['k02']);
    const fits = station.bench.fits(station.id, asked());
    expect(fits).toMatchObject([
      { probe: 'k01', problem: null, calibration: { fit: { form: 'offset' } } },
      { probe: 'k02', calibration: null, problem: 'calibration: expected at least one point, got none' },
    ]);
    expect(fits[0]?.calibration?.fit.coefficients[0]).toBeCloseTo(-1, 1);
    expect(station.registry.calibrations.count()).toBe(0);
    expect(station.bench.get(station.id).bench.state).toBe('open');
    expect(station.bench.fits(station.id, asked({ probes: ['k02'] })).map(({ probe }) => probe)).toEqual([
      'k02',
    ]);
  });
});

describe('a bench is not finished', () => {
  const refused = (station: ReturnType<typeof captured>, change: Partial<FinishBody>): string =>
    refusalOf(() => station.bench.finish(station.id, asked(change)));

  function expectOpen(station: ReturnType<typeof captured>): void {
    expect(station.registry.calibrations.count()).toBe(0);
    expect(station.bench.get(station.id).bench).toMatchObject({ state: 'open', calibrations: [] });
    const key = 'temperature';
    expect(station.station.calibrations.inForce('test-ridge', 'k01', key, minuteAt(999))).toBeNull();
  }

  test('while a probe has too few points: it is named, with how to go on', () => {
    const station = captured(['k01'], ['k02']);
    expect(refused(station, {})).toBe(
      'TOO_FEW_SAMPLES: probe k02: calibration: expected at least one point, got none; name the others in "probes" (--only) to go on without it, or "close" the bench (--close) to end it without it',
    );
    expectOpen(station);
    expect(station.bench.finish(station.id, asked({ probes: ['k01'] })).calibrations).toHaveLength(1);
  });

  test.each<[string, Partial<FinishBody>, RegExp]>([
    [
      'with a form that the points do not support',
      { fit: { form: 'linear' } },
      /^TOO_FEW_SAMPLES: probe k01: calibration: a gain needs/,
    ],
    [
      'with a probe that is not on it',
      { probes: ['k01', 'p01'] },
      /^BAD_REQUEST: probes: expected some of k01, k02, got p01$/,
    ],
    ['from before the probe was there', { from: minuteAt(-9e6) }, /^CONFLICT: probe k01: from: /],
    [
      'from the future on',
      { from: minuteAt(9e6) },
      /^CONFLICT: probe k01: from: expected a time that has come/,
    ],
    [
      'without a point that there is not',
      { fit: { leaveOut: [{ probe: 'k01', point: 2, reason: 'spilt' }] } },
      /^BAD_REQUEST: probe k01: leaveOut: expected a point at which probe k01 was captured, one of 1, got 2/,
    ],
    [
      'without a point of a probe that is not meant',
      { fit: { leaveOut: [{ probe: 'p01', point: 1, reason: 'spilt' }] } },
      /^BAD_REQUEST: probes: expected some of k01, k02, got p01$/,
    ],
    [
      'without the only point of a probe',
      { fit: { leaveOut: [{ probe: 'k02', point: 1, reason: 'spilt' }] } },
      /^TOO_FEW_SAMPLES: probe k02: /,
    ],
  ])('%s, and nothing is kept', (_, change, sentence) => {
    const station = captured();
    expect(refused(station, change)).toMatch(sentence);
    expectOpen(station);
  });

  test('a second time, and it is said that it is finished', () => {
    const station = captured();
    station.bench.finish(station.id, asked());
    const sentence = `CONFLICT: bench ${station.id}: expected it to be open, but it is finished`;
    expect(refused(station, {})).toBe(sentence);
    station.goTo(20);
    expect(refused(station, { from: minuteAt(15) })).toBe(sentence);
    expect(station.registry.calibrations.count()).toBe(2);
  });
});

describe('a bench that has ended', () => {
  test('takes no more steps', () => {
    const { bench, id } = captured();
    expect(bench.giveUp(id, 'power cut').bench).toMatchObject({ state: 'given-up', reason: 'power cut' });
    const sentence = `CONFLICT: bench ${id}: expected it to be open, but it is given up`;
    for (const step of [
      () => bench.point(id, BATH),
      () => bench.capture(id, { probes: ['k01'] }),
      () => bench.giveUp(id, 'again'),
      () => bench.finish(id, asked()),
    ])
      expect(refusalOf(step)).toBe(sentence);
    expect(bench.get(id).settling).toEqual([]);
  });
});

test.each<[string, (bench: BenchStation['bench']) => unknown]>([
  ['looked at', (bench) => bench.get('none')],
  ['begun a point on', (bench) => bench.point('none', BATH)],
  ['captured', (bench) => bench.capture('none', {})],
  ['tried', (bench) => bench.fits('none', asked())],
  ['finished', (bench) => bench.finish('none', asked())],
  ['given up', (bench) => bench.giveUp('none', 'why')],
])('a bench that is none is not %s', (_, step) => {
  expect(refusalOf(() => step(openBenchDesk().bench))).toBe('NOT_FOUND: no bench has the id "none"');
});
