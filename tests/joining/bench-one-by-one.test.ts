/** Probes of one bench that are finished at different times, points taken back, and the step of a probe. */
import { describe, expect, test } from 'vitest';
import type { BenchPointBody, FinishBody } from '../../services/core/model/bench.js';
import { formatTime } from '../../services/core/model/time.js';
import { approaching, benchOf, minuteAt, openBenchDesk, siteWithShelf } from '../support/bench-work.js';
import { BED, refusalOf } from '../support/calibrating.js';

const BATH: BenchPointBody = { source: 'instrument', reference: 25, uncertainty: 0.05 };

const asked = (change: Partial<FinishBody> = {}): FinishBody => ({ fit: {}, ...change });

/** Both probes captured in one bath, k01 1 °C too high; `waits` lie beside them and were never captured. */
function captured(waits: readonly string[] = []) {
  const station = openBenchDesk();
  for (const probe of waits) station.commit(approaching({ probe, from: -5, to: -4, start: 20, end: 20 }));
  const { id } = station.bench.open(benchOf({ probes: ['k01', 'k02', ...waits] })).bench;
  station.bench.point(id, BATH);
  for (const [probe, end] of [
    ['k01', 26],
    ['k02', 25],
  ] as const)
    station.commit(approaching({ probe, from: 0, to: 10, start: end, end }));
  station.goTo(10);
  station.bench.capture(id, { probes: ['k01', 'k02'] });
  return { ...station, id };
}

describe('a bench of which some probes are finished', () => {
  test('stays open, and the captures of the others are there to be finished', () => {
    const station = captured();
    const { bench, calibrations } = station.bench.finish(station.id, asked({ probes: ['k01'] }));
    expect(calibrations.map(({ probe }) => probe)).toEqual(['k01']);
    expect(bench.bench).toMatchObject({ state: 'open', endedAt: null, finishedProbes: ['k01'] });
    expect(bench.bench.calibrations).toEqual(calibrations.map(({ id }) => id));
    station.goTo(30);
    const rest = station.bench.finish(station.id, asked());
    expect(rest.calibrations.map(({ probe, doneAt }) => [probe, doneAt])).toEqual([['k02', minuteAt(10)]]);
    expect(rest.bench.bench).toMatchObject({
      ...{ state: 'finished', endedAt: minuteAt(30), finishedProbes: ['k01', 'k02'] },
      calibrations: [...calibrations, ...rest.calibrations].map(({ id }) => id),
    });
  });

  test('shows, tries and waits for only those that are not finished', () => {
    const station = captured();
    station.bench.finish(station.id, asked({ probes: ['k01'] }));
    expect(station.bench.fits(station.id, asked()).map(({ probe }) => probe)).toEqual(['k02']);
    station.bench.point(station.id, { source: 'ice-point' });
    expect(station.bench.get(station.id).settling.map(({ probe }) => probe)).toEqual(['k02']);
    expect(refusalOf(() => station.bench.capture(station.id, { probes: ['k01'] }))).toBe(
      `CONFLICT: bench ${station.id}: expected probes that are not finished yet, but k01 is finished already`,
    );
  });

  test('refuses to finish, try or leave out a point of one that is finished', () => {
    const station = captured();
    station.bench.finish(station.id, asked({ probes: ['k01'] }));
    const sentence = `CONFLICT: bench ${station.id}: expected probes that are not finished yet, but k01 is finished already`;
    const leaveOut = [{ probe: 'k01', point: 1, reason: 'spilt' }];
    for (const step of [
      () => station.bench.finish(station.id, asked({ probes: ['k01'] })),
      () => station.bench.finish(station.id, asked({ probes: ['k02', 'k01'] })),
      () => station.bench.fits(station.id, asked({ probes: ['k01'] })),
      () => station.bench.finish(station.id, asked({ fit: { leaveOut } })),
    ])
      expect(refusalOf(step)).toBe(sentence);
    expect(station.registry.calibrations.count()).toBe(1);
  });

  test('lets a finished probe go to another bench, and no other', () => {
    const station = captured();
    station.bench.finish(station.id, asked({ probes: ['k01'] }));
    expect(refusalOf(() => station.bench.open(benchOf({ probes: ['k02'] })))).toMatch(/it is on bench/);
    expect(station.bench.open(benchOf({ probes: ['k01'] })).bench.state).toBe('open');
  });
});

describe('a probe that was never captured', () => {
  test('holds up a finish that names nobody, and is named', () => {
    const station = captured(['x01']);
    expect(refusalOf(() => station.bench.finish(station.id, asked()))).toMatch(
      /^TOO_FEW_SAMPLES: probe x01: .*; name the others in "probes" \(--only\) to go on without it, or "close"/,
    );
    expect(station.registry.calibrations.count()).toBe(0);
  });

  test('keeps the bench open when all others are finished by name', () => {
    const station = captured(['x01']);
    const { bench } = station.bench.finish(station.id, asked({ probes: ['k01', 'k02'] }));
    expect(bench.bench.state).toBe('open');
    expect(station.bench.finish(station.id, asked({ close: true })).bench.bench).toMatchObject({
      ...{ state: 'finished', finishedProbes: ['k01', 'k02'] },
    });
    expect(station.registry.calibrations.count()).toBe(2);
  });

  test('is left out of a finish that closes the bench', () => {
    const station = captured(['x01']);
    const { bench, calibrations } = station.bench.finish(station.id, asked({ close: true }));
    expect(calibrations.map(({ probe }) => probe)).toEqual(['k01', 'k02']);
    expect(bench.bench.state).toBe('finished');
  });

  test('does not make a bench of nothing a finished one', () => {
    const station = openBenchDesk();
    const { id } = station.bench.open(benchOf()).bench;
    expect(refusalOf(() => station.bench.finish(id, asked({ close: true })))).toMatch(
      /^TOO_FEW_SAMPLES: bench/,
    );
    expect(station.bench.get(id).bench.state).toBe('open');
  });
});

describe('a finish in the place of a calibration', () => {
  test('takes its place from the same time on', () => {
    const again = captured();
    const body = { from: minuteAt(1) };
    const [wrong] = again.bench.finish(again.id, asked({ ...body, probes: ['k01'] })).calibrations;
    const calibration = wrong?.id ?? '';
    const { id } = again.bench.open(benchOf({ probes: ['k01'] })).bench;
    again.bench.point(id, { ...BATH, reference: 26 } as BenchPointBody);
    again.commit(approaching({ probe: 'k01', from: 10.5, to: 22, start: 26, end: 26 }));
    again.goTo(22);
    again.bench.capture(id, {});
    expect(refusalOf(() => again.bench.finish(id, asked(body)))).toMatch(/name it in "supersedes"/);
    const supersedes = [{ probe: 'k01', calibration }];
    const [right] = again.bench.finish(id, asked({ ...body, supersedes })).calibrations;
    expect(right).toMatchObject({ supersedes: calibration, from: minuteAt(1) });
    expect(again.desk.supersededBy(wrong as never)).toBe(right?.id);
  });

  test('is refused for a probe that is not finished with it, and a calibration that is none', () => {
    const station = captured();
    const supersedes = [{ probe: 'k02', calibration: 'none' }];
    expect(refusalOf(() => station.bench.finish(station.id, asked({ probes: ['k01'], supersedes })))).toBe(
      'BAD_REQUEST: supersedes: expected probes that are to be finished now, k01, got k02',
    );
    expect(refusalOf(() => station.bench.finish(station.id, asked({ supersedes })))).toMatch(
      /^CONFLICT: probe k02: supersedes: expected a calibration of the temperature of probe k02/,
    );
    expect(station.registry.calibrations.count()).toBe(0);
  });
});

describe('a point that was begun wrongly', () => {
  test('is dropped, what came before stays, and its state before is kept', () => {
    const station = captured();
    station.bench.point(station.id, { source: 'ice-point' });
    const { bench, settling } = station.bench.dropPoint(station.id);
    expect(bench.points.map(({ number, captured: all }) => [number, all.length])).toEqual([[1, 2]]);
    expect(settling).toEqual([]);
    const revisions = station.database
      .prepare('SELECT document FROM bench WHERE id = ? ORDER BY revision')
      .pluck()
      .all(station.id) as string[];
    expect(revisions.map((text) => (JSON.parse(text) as { points: unknown[] }).points.length)).toEqual([
      0, 1, 1, 2, 1,
    ]);
    expect(station.bench.point(station.id, BATH).bench.points.at(-1)).toMatchObject({ number: 2 });
  });

  test('is not dropped once something was captured at it, nor where there is none', () => {
    const station = captured();
    expect(refusalOf(() => station.bench.dropPoint(station.id))).toMatch(
      /^CONFLICT: point 1: expected one at which nothing was captured, but k01, k02 were/,
    );
    expect(refusalOf(() => station.bench.dropPoint('none'))).toBe('NOT_FOUND: no bench has the id "none"');
  });

  test('takes no captures for the point before it', () => {
    const station = openBenchDesk();
    const { id } = station.bench.open(benchOf({ probes: ['k01'] })).bench;
    station.bench.point(id, BATH);
    station.commit(approaching({ probe: 'k01', from: 0, to: 10, start: 25, end: 25 }));
    station.goTo(10);
    station.bench.point(id, { source: 'ice-point' });
    station.bench.dropPoint(id);
    expect(refusalOf(() => station.bench.capture(id, {}))).toMatch(/got none since the last was dropped$/);
  });
});

describe('the step of a probe', () => {
  /** Readings in so coarse steps as are given, at rest after three minutes. */
  const inSteps = (probe: string, step: number) =>
    Array.from({ length: 121 }, (_, at) => ({
      topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`,
      payload: JSON.stringify([
        {
          ...{ n: 'temperature', u: 'Cel', bt: minuteAt(0) / 1000 + 10 * at },
          v: at < 18 ? 25 - step * Math.ceil((18 - at) / 6) : 25,
        },
      ]),
    }));

  function stepsOn(step: number, change: Partial<FinishBody> = {}) {
    const station = openBenchDesk();
    const { id } = station.bench.open(benchOf({ probes: ['k01'] })).bench;
    station.bench.point(id, BATH);
    station.commit(inSteps('k01', step));
    station.goTo(20);
    const [capture] = station.bench.capture(id, {}).bench.points[0]?.captured ?? [];
    const [tried] = station.bench.fits(id, asked(change));
    const [record] = station.bench.finish(id, asked(change)).calibrations;
    expect(tried?.calibration?.fit).toEqual(record?.fit);
    return { capture, fit: record?.fit };
  }

  test('that its readings show is kept with the capture and counted in the fit', () => {
    const { capture, fit } = stepsOn(0.5);
    expect(capture).toMatchObject({ step: 0.5, stepFrom: 'seen' });
    expect(fit).toMatchObject({ resolution: 0.5, resolutionFrom: 'seen' });
  });

  test('that they do not show is that of a usual sensor', () => {
    const { capture, fit } = stepsOn(0);
    expect(capture).toMatchObject({ step: 0.0625, stepFrom: 'usual' });
    expect(fit).toMatchObject({ resolution: 0.0625, resolutionFrom: 'usual' });
  });

  test('that is given goes before both', () => {
    expect(stepsOn(0.5, { fit: { resolution: 0.1 } }).fit).toMatchObject({
      ...{ resolution: 0.1, resolutionFrom: 'given' },
    });
  });
});

test('a probe that is placed while it lies on the bench is warned of, until it is finished', () => {
  const station = captured();
  const placement = { bed: BED, x: 40, y: 30, depth: 20, from: formatTime(minuteAt(5)) };
  station.load(siteWithShelf([placement]));
  station.station.refresh();
  expect(station.bench.get(station.id).warnings).toEqual([
    `k01 stands in ${BED} since ${formatTime(minuteAt(5))}: its bath is judged as sand: give the placement a later "from"`,
  ]);
  station.bench.finish(station.id, asked({ probes: ['k01'] }));
  expect(station.bench.get(station.id).warnings).toEqual([]);
});

test('the points of a calibration have the numbers of the bench', () => {
  const station = captured();
  station.bench.point(station.id, { source: 'ice-point' });
  station.bench.dropPoint(station.id);
  const [record] = station.bench.finish(station.id, asked()).calibrations;
  expect(record?.points.map(({ label }) => label)).toEqual(['point 1: beside instrument']);
});

test('a bench that has ended is listed by its state, the newest first', () => {
  const station = captured();
  station.bench.finish(station.id, asked());
  station.goTo(30);
  const { id } = station.bench.open(benchOf()).bench;
  const list = (state?: 'open' | 'finished' | 'given-up') =>
    station.bench.list('test-ridge', state, 10).map((one) => one.id);
  expect([list(), list('open'), list('finished'), list('given-up')]).toEqual([
    [id, station.id],
    [id],
    [station.id],
    [],
  ]);
  expect(station.bench.list('other', undefined, 10)).toEqual([]);
  expect(station.bench.list(undefined, undefined, 1)).toHaveLength(1);
});
