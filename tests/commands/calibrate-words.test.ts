/** What `sandlarder calibrate` sends and prints of benches and calibrations, over the answers of a real station. */
import { describe, expect, test } from 'vitest';
import { finishBody, restLines } from '../../services/commands/calibrate/finish.js';
import { leftOutOf } from '../../services/commands/calibrate/left-out.js';
import { benchLines } from '../../services/commands/calibrate/lines.js';
import { calibrationLines, recordTable } from '../../services/commands/calibrate/record-lines.js';
import type { BenchAnswer, CalibrationAnswer } from '../../services/http/index.js';
import { type StationApp, stationApp } from '../http/station-app.js';
import { approaching } from '../support/bench-work.js';

const BENCH = {
  ...{ site: 'test-ridge', probes: ['k01', 'k02'], quantity: 'temperature', by: 'bench-hand' },
  reference: { name: 'station thermometer' },
};

/** One point, at which k01 showed 3 °C too much, and k02 the truth. */
async function captured(app: StationApp): Promise<string> {
  const { id } = (await app.post('/api/bench', BENCH)).json() as BenchAnswer;
  await app.post(`/api/bench/${id}/points`, { source: 'instrument', reference: 25, uncertainty: 0.05 });
  for (const [probe, end] of [
    ['k01', 28],
    ['k02', 25],
  ] as const)
    app.commit(approaching({ probe, from: 0, to: 10, start: end, end }));
  app.goTo(10);
  await app.post(`/api/bench/${id}/capture`, {});
  return id;
}

type Finished = { bench: BenchAnswer; calibrations: CalibrationAnswer[] };

const finished = async (app: StationApp, id: string, body: object): Promise<Finished> =>
  (await app.post(`/api/bench/${id}/finish`, body)).json();

describe('a calibration in words', () => {
  test('has the whole uncertainty, where its step is from, and a warning of one point', async () => {
    const app = await stationApp();
    const { calibrations } = await finished(app, await captured(app), {});
    const [record] = calibrations as [CalibrationAnswer];
    const lines = calibrationLines(record, true);
    // By hand, k = 1: reference 0.05, steps of 0.01 / sqrt(12), scatter of one reading 0.005: 2 x 0.0504.
    expect(lines[2]).toBe(
      '  one corrected reading is known to 0.10 °C at 28.0 (k = 2, all that is known of it), over 28.0 to 28.0 °C',
    );
    expect(lines).toContain('  step of the probe: 0.01 °C, as its readings show');
    expect(lines.some((line) => line.startsWith('  one point only: it moves every value by -3'))).toBe(true);
    expect(lines.at(-1)).toMatch(/^ {2}certificate: /);
    expect(calibrationLines(record, false).join('\n')).not.toContain('certificate');
    expect(
      calibrations.map((one) => calibrationLines(one, true).join('\n').includes('one point only')),
    ).toEqual([true, false]);
  });

  test('says where a step is usual, given or unknown', async () => {
    const app = await stationApp();
    const { calibrations } = await finished(app, await captured(app), {});
    const [record] = calibrations as [CalibrationAnswer];
    const { resolution: _, resolutionFrom: __, ...fit } = record.fit;
    const said = (change: object): string | undefined =>
      calibrationLines({ ...record, fit: { ...fit, ...change } }, true)[3];
    expect(said({})).toBe('  step of the probe not known, not counted');
    expect(said({ resolution: 0.1 })).toBe('  step of the probe: 0.1 °C, as given');
    expect(said({ resolution: 0.0625, resolutionFrom: 'usual' })).toBe(
      '  step of the probe: 0.0625 °C, that of a usual sensor, since its readings show none',
    );
  });

  test('names its points by the numbers of the bench', async () => {
    const app = await stationApp();
    const id = await captured(app);
    const { calibrations } = await finished(app, id, {});
    const [record] = calibrations as [CalibrationAnswer];
    const leftOut = [{ index: 0, reason: 'spilt', residual: 1 }];
    const named = (label: string | undefined): string =>
      calibrationLines(
        {
          ...record,
          fit: { ...record.fit, leftOut },
          points: record.points.map(({ label: _, ...point }) => ({ ...point, ...(label && { label }) })),
        },
        true,
      ).join('\n');
    expect(named('point 4: ice point')).toContain('  point 4 was left out: spilt');
    expect(named('line 7')).toContain('  line 7 was left out: spilt');
    expect(named(undefined)).toContain('  point 1 was left out: spilt');
  });

  test('in a line has what a list needs', async () => {
    const app = await stationApp();
    const { calibrations } = await finished(app, await captured(app), {});
    const [head, first, second] = recordTable(calibrations);
    expect(head).toMatch(/^probe +quantity +from +done +by +form +U \(k = 2\) +id$/);
    expect(first).toMatch(
      /^k01 +temperature +2026-11-02T08:10:00Z .* bench-hand +offset +0\.10 °C +in force +\S+$/,
    );
    expect(second).toMatch(/^k02 /);
  });
});

describe('a bench in words', () => {
  test('says which are finished, what is open still, and what was left when it was closed', async () => {
    const app = await stationApp();
    const id = await captured(app);
    const { bench } = await finished(app, id, { probes: ['k01'] });
    expect(benchLines(bench, false)[0]).toBe(
      `Bench ${id}, open: temperature of 2 probes, k01, k02; finished: k01`,
    );
    expect(restLines(bench)).toEqual(['The bench is open still for k02 (captured at 1 point).']);
    expect(restLines({ ...bench, state: 'finished' })).toEqual([
      'The bench is closed; nothing came of k02 (captured at 1 point).',
    ]);
    expect(restLines({ ...bench, finishedProbes: ['k01', 'k02'] })).toEqual([]);
  });

  test('shows the latest value from the first reading on, and its warnings', async () => {
    const app = await stationApp();
    const { id } = (await app.post('/api/bench', BENCH)).json() as BenchAnswer;
    await app.post(`/api/bench/${id}/points`, { source: 'ice-point' });
    app.commit(approaching({ probe: 'k01', from: 0, to: 2, start: 20, end: 20 }));
    const bench = (await app.get(`/api/bench/${id}`)).json() as BenchAnswer;
    const lines = benchLines({ ...bench, warnings: ['k01 stands in pit-t'] }, false);
    expect(lines.find((line) => line.startsWith('k01'))).toMatch(
      /^k01 +20\.00 °C +- +- +13 +not judged before 5 min; about 3 min more$/,
    );
    expect(lines).toContain('Warning: k01 stands in pit-t');
  });
});

describe('what a finish sends', () => {
  const service = 'http://127.0.0.1:8080';

  test('is nothing but the fit where nothing is said', () => {
    expect(finishBody({ service })).toEqual({ fit: {} });
  });

  test('is all that is said', () => {
    const flags = {
      ...{ service, only: ['p03'], close: true, supersedes: ['p03=c1'], resolution: '0.1' },
      leaveOut: ['p03:2:lid: open'],
    };
    expect(finishBody(flags)).toEqual({
      ...{ probes: ['p03'], close: true, supersedes: [{ probe: 'p03', calibration: 'c1' }] },
      fit: { resolution: 0.1, leaveOut: [{ probe: 'p03', point: 2, reason: 'lid: open' }] },
    });
  });

  test.each([
    [{ supersedes: ['c1'] }, /--supersedes: expected PROBE=CALIBRATION such as "p03=ID", got "c1"/],
    [{ supersedes: ['p03='] }, /--supersedes: expected PROBE=CALIBRATION/],
    [{ leaveOut: ['p03:lid'] }, /--leave-out: expected PROBE:POINT:REASON/],
    [{ resolution: 'fine' }, /--resolution: expected a number from 0 to 10/],
  ])('%j is refused', (flags, message) => {
    expect(() => finishBody({ service, ...flags })).toThrow(message);
  });

  test('of a file names its lines', () => {
    expect(leftOutOf(['p03:7:spilt'], 'LINE')).toEqual([{ probe: 'p03', number: 7, reason: 'spilt' }]);
    expect(() => leftOutOf(['7:spilt'], 'LINE')).toThrow(/expected PROBE:LINE:REASON/);
  });
});
