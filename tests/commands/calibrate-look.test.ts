/** `sandlarder calibrate look --follow` over a service that comes and goes. */
import { describe, expect, test } from 'vitest';
import { lookAt } from '../../services/commands/calibrate/look.js';
import { SandlarderError } from '../../services/core/errors.js';
import type { BenchAnswer } from '../../services/http/index.js';

const bench = (settled: boolean): BenchAnswer => ({
  ...{ id: 'b1', site: 'ridge', quantity: 'temperature', probes: ['p01'], by: 'A. Technician' },
  ...{ startedAt: '2026-11-02T08:00:00Z', state: 'open', endedAt: null, reason: null },
  ...{ points: [], warnings: [], cautions: [], calibrations: [], finishedProbes: [] },
  settling: [
    {
      ...{ probe: 'p01', captured: false, settled, words: settled ? 'settled' : 'about 3 min more' },
      ...{ reason: 'made up', remaining_s: null, latest: 24.5, latestAt: '2026-11-02T08:05:00Z' },
      ...{ mean: null, scatter: null, slope_perMinute: null, readings: 7, trace: [] },
    },
  ],
});

const AWAY = new SandlarderError('RECEIVER_UNAVAILABLE', 'expected a service, got no answer');

/** Answers one after the other; what was said, and how often it waited. */
async function looked(
  answers: readonly (BenchAnswer | Error)[],
  flags: { follow?: boolean; json?: boolean },
) {
  const said: string[] = [];
  const left = [...answers];
  let waits = 0;
  const ended = await lookAt(
    { service: 'http://127.0.0.1:8080', ...flags },
    {
      get: async () => {
        const next = left.shift();
        if (next === undefined) throw new Error('asked too often');
        if (next instanceof Error) throw next;
        return next;
      },
      wait: async () => {
        waits += 1;
      },
      say: (line) => void said.push(line),
      now: () => new Date(2026, 10, 2, 8, 5, waits),
    },
  ).catch((error: unknown) => error);
  return { said, waits, ended, left: left.length };
}

describe('following', () => {
  test('goes on over a restart of the service, says so once, and ends when all have settled', async () => {
    const answers = [bench(false), AWAY, new TypeError('terminated'), AWAY, bench(false), AWAY, bench(true)];
    const { said, waits, ended, left } = await looked(answers, { follow: true });
    expect({ ended, waits, left }).toEqual({ ended: undefined, waits: 6, left: 0 });
    expect(said.filter((line) => line.includes('does not answer'))).toEqual([
      '08:05:01: the service does not answer; trying on',
      '08:05:05: the service does not answer; trying on',
    ]);
    expect(said.filter((line) => /^\d\d:\d\d:\d\d$/.test(line))).toEqual([
      '08:05:00',
      '08:05:04',
      '08:05:06',
    ]);
    expect(said.at(-1)).toMatch(/p01 +24\.50 °C +- +- +7 +settled/);
  });

  test('gives up on a service that never answered, and on what it refuses', async () => {
    expect((await looked([AWAY], { follow: true })).ended).toBe(AWAY);
    const gone = new SandlarderError('NOT_FOUND', 'no bench has the id "b1"');
    expect((await looked([bench(false), gone], { follow: true })).ended).toBe(gone);
  });

  test('as JSON prints nothing else', async () => {
    const { said } = await looked([bench(false), AWAY, bench(true)], { follow: true, json: true });
    expect(said.map((line) => (JSON.parse(line) as BenchAnswer).id)).toEqual(['b1', 'b1']);
  });
});

test('one look ends at once, and does not wait for a service that is away', async () => {
  expect(await looked([bench(false)], {})).toMatchObject({ ended: undefined, waits: 0 });
  expect(await looked([AWAY], {})).toMatchObject({ ended: AWAY, said: [] });
});
