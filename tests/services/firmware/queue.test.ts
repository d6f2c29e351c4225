/** Readings that wait: order, the rule when the queue is full, numbers, acknowledgement; the clock, pauses and topics. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { QUANTITIES, STORABLE } from '../../../services/core/model/quantity.js';
import { MESSAGE_LIMITS } from '../../../services/intake/limits.js';
import { parseTopic } from '../../../services/intake/topic.js';
import { RESULT, startEncoder } from './encoder.js';

const encoder = startEncoder();

const EVERY_s = 600;

/** Adds readings of one temperature, and says what each add answered. */
const addAll = (times: readonly number[]) => Promise.all(times.map((at) => encoder.add(at, 21_000)));

const regular = (count: number, from = 0): number[] =>
  Array.from({ length: count }, (_, n) => (from + n) * EVERY_s);

describe('the queue', () => {
  test('keeps readings in order, each with the next number', async () => {
    await encoder.begin(5, 41);
    expect(await addAll([0, 600, 601])).toEqual([RESULT.OK, RESULT.OK, RESULT.OK]);
    expect(await encoder.queue()).toEqual({ lost: 0, sequences: [41, 42, 43], times: [0, 600, 601] });
  });

  test('full, it throws away the reading between the closest neighbours, the oldest of several', async () => {
    await encoder.begin(5);
    await addAll([0, 600, 1200, 1300, 1900]);
    expect(await encoder.add(2500, 21_000)).toBe(RESULT.THINNED);
    // Neighbours of 600 are 1200 apart, of 1200 and 1300 only 700: the older goes.
    expect(await encoder.queue()).toEqual({
      lost: 1,
      sequences: [1, 2, 4, 5, 6],
      times: [0, 600, 1300, 1900, 2500],
    });
  });

  test.each([3, 7, 48])(
    'a queue of %i holds any outage from its first reading to its last',
    async (capacity) => {
      await encoder.begin(capacity);
      await addAll(regular(20 * capacity));
      const { times, lost } = await encoder.queue();
      const span = (20 * capacity - 1) * EVERY_s;
      expect(times).toHaveLength(capacity);
      expect(lost).toBe(19 * capacity);
      expect([times[0], times.at(-1)]).toEqual([0, span]);
      const gaps = times.slice(1).map((at, n) => at - (times[n] ?? 0));
      // Thrown away one by one, gaps double before all have: none is above three times the even one.
      expect(Math.max(...gaps)).toBeLessThanOrEqual((3 * span) / (capacity - 1));
    },
  );

  test('acknowledged readings are forgotten, and no others', async () => {
    await encoder.begin(4, 10);
    await addAll(regular(4));
    expect(await encoder.release(9)).toBe(0);
    expect(await encoder.release(11)).toBe(2);
    await addAll(regular(2, 4));
    expect((await encoder.queue()).sequences).toEqual([12, 13, 14, 15]);
    expect(await encoder.release(99)).toBe(4);
    expect((await encoder.queue()).sequences).toEqual([]);
  });

  test('readings thrown away between sending and acknowledgement are not looked for', async () => {
    await encoder.begin(4);
    await addAll(regular(4));
    const { last } = await encoder.pack(1000, 3 * EVERY_s);
    await addAll(regular(2, 4));
    expect(last).toBe(4);
    expect(await encoder.release(last)).toBeLessThan(4);
    expect((await encoder.queue()).sequences).toEqual([5, 6]);
  });

  test('numbers go round', async () => {
    await encoder.begin(4, 2 ** 32 - 2);
    await addAll(regular(4));
    expect((await encoder.queue()).sequences).toEqual([2 ** 32 - 2, 2 ** 32 - 1, 0, 1]);
    expect(await encoder.release(0)).toBe(3);
  });

  test('goes round more often than 16 bits count', async () => {
    await encoder.begin(3);
    await encoder.ask('turn', 2 ** 16 - 1);
    await addAll([100_000, 100_600, 101_200]);
    expect((await encoder.queue()).times).toEqual([100_000, 100_600, 101_200]);
    expect(await encoder.release(2 ** 16)).toBe(1);
    expect((await encoder.queue()).times).toEqual([100_600, 101_200]);
  });

  test.each([0, 1, 2])('a capacity of %i is refused', async (capacity) => {
    expect(await encoder.begin(capacity)).toBe(RESULT.OUT_OF_RANGE);
  });

  test.each([
    ['no value', [600], RESULT.NO_VALUE],
    ['the time of the reading before', [0, 21_000], RESULT.BAD_TIME],
    ['the last second of the count', [2 ** 32 - 1, 21_000], RESULT.BAD_TIME],
  ] as const)('%s is refused, and changes nothing', async (_what, [at, value], result) => {
    await encoder.begin(3);
    await addAll([0]);
    expect(await encoder.add(at, value)).toBe(result);
    expect(await encoder.queue()).toEqual({ lost: 0, sequences: [1], times: [0] });
  });

  test('a time is refused also where the reading before it has been sent', async () => {
    await encoder.begin(3);
    await addAll([600]);
    await encoder.release(1);
    expect(await encoder.add(600, 21_000)).toBe(RESULT.BAD_TIME);
    expect(await encoder.add(601, 21_000)).toBe(RESULT.OK);
  });

  test.each(QUANTITIES.slice(0, 3))(
    'of %s takes the values that the service stores, and no others',
    async (quantity) => {
      const [lowest, highest] = STORABLE[quantity].map((limit) => limit * 1000) as [number, number];
      await encoder.begin(5);
      const add = (at: number, value: number) =>
        encoder.add(at, ...QUANTITIES.slice(0, 3).map((one) => (one === quantity ? value : undefined)));
      expect(await add(1, lowest)).toBe(RESULT.OK);
      expect(await add(2, lowest - 1)).toBe(RESULT.OUT_OF_RANGE);
      expect(await add(3, highest)).toBe(RESULT.OK);
      expect(await add(4, highest + 1)).toBe(RESULT.OUT_OF_RANGE);
    },
  );
});

/** The rule once more, with lists that grow and shrink. */
function modelOf(capacity: number) {
  let kept: { sequence: number; at: number }[] = [];
  let sequence = 1;
  let lost = 0;
  return {
    add(at: number) {
      const all = [...kept, { sequence: sequence++, at }];
      if (all.length > capacity) {
        const gaps = all.slice(1, -1).map((_, n) => (all[n + 2]?.at ?? 0) - (all[n]?.at ?? 0));
        all.splice(1 + gaps.indexOf(Math.min(...gaps)), 1);
        lost += 1;
      }
      kept = all;
    },
    release(last: number) {
      kept = kept.filter((reading) => reading.sequence > last);
    },
    state: () => ({ lost, sequences: kept.map((one) => one.sequence), times: kept.map((one) => one.at) }),
  };
}

test('whatever is added and acknowledged, the queue is what a second telling of its rule says', async () => {
  const step = fc.record({ after: fc.integer({ min: 1, max: 4000 }), release: fc.option(fc.nat(40)) });
  await fc.assert(
    fc.asyncProperty(
      fc.integer({ min: 3, max: 9 }),
      fc.array(step, { maxLength: 40 }),
      async (capacity, steps) => {
        const model = modelOf(capacity);
        const said = [encoder.begin(capacity)];
        let at = 0;
        for (const { after, release } of steps) {
          at += after;
          model.add(at);
          said.push(encoder.add(at, 0));
          if (release !== null) {
            model.release(release);
            said.push(encoder.release(release));
          }
        }
        await Promise.all(said);
        expect(await encoder.queue()).toEqual(model.state());
      },
    ),
    { seed: 48, numRuns: 60 },
  );
});

describe('the clock', () => {
  const MADE_s = 1_767_225_600;
  const NOW_s = 1_780_000_000;

  test('keeps the time of day at uptime 0, and leaves it while it wanders by a minute', async () => {
    await encoder.begin(3);
    expect(await encoder.numbers('clock', 1000, NOW_s, MADE_s)).toEqual([RESULT.OK, 1, NOW_s - 1000]);
    expect(await encoder.numbers('clock', 2000, NOW_s + 1060, MADE_s)).toEqual([RESULT.OK, 1, NOW_s - 1000]);
    expect(await encoder.numbers('clock', 2000, NOW_s + 939, MADE_s)).toEqual([
      RESULT.CLOCK_MOVED,
      1,
      NOW_s - 1061,
    ]);
  });

  test.each([
    ['1970', 0, 86_400],
    ['1980', 0, 315_964_800],
    ['the second before the firmware was made', 0, MADE_s - 1],
    ['a start before 2000', NOW_s - MESSAGE_LIMITS.earliest_ms / 1000 + 1, NOW_s],
  ])('%s is refused, and what is known stays', async (_what, uptime, epoch) => {
    await encoder.begin(3);
    expect(await encoder.numbers('clock', uptime, epoch, MADE_s)).toEqual([RESULT.BAD_TIME, 0, 0]);
    await encoder.ask('clock', 0, NOW_s, MADE_s);
    expect(await encoder.numbers('clock', uptime, epoch, MADE_s)).toEqual([RESULT.BAD_TIME, 1, NOW_s]);
  });

  test('nothing before 2000 is taken, whatever the caller says', async () => {
    await encoder.begin(3);
    const first_s = MESSAGE_LIMITS.earliest_ms / 1000;
    expect((await encoder.numbers('clock', 0, first_s - 1, 0))[0]).toBe(RESULT.BAD_TIME);
    expect((await encoder.numbers('clock', 0, first_s, 0))[0]).toBe(RESULT.OK);
  });
});

describe('pauses', () => {
  test('double up to the longest, and begin again after a success', async () => {
    await encoder.ask('back-off', 5, 600);
    const next = async () => (await encoder.numbers('back-off-next', 0))[0];
    const pauses = [];
    for (let n = 0; n < 10; n += 1) pauses.push(await next());
    expect(pauses).toEqual([5, 10, 20, 40, 80, 160, 320, 600, 600, 600]);
    await encoder.ask('back-off-reset');
    expect(await next()).toBe(5);
  });

  test.each([1, 600, 2 ** 32 - 1])(
    'of %i are shortened to no less than their half, by every step',
    async (full) => {
      const shortest = Math.ceil(full / 2);
      const drawn = [];
      for (const random of [0, 1, 7, Math.floor(full / 2), 2 ** 32 - 1]) {
        await encoder.ask('back-off', full, full);
        drawn.push((await encoder.numbers('back-off-next', random))[0] ?? 0);
      }
      expect(Math.max(...drawn)).toBe(full);
      expect(Math.min(...drawn)).toBe(shortest);
    },
  );
});

describe('topics', () => {
  const LONGEST = 'a'.repeat(32);

  test.each([
    ['ridge-station', 'p01', 'readings'],
    ['0', '9-', 'status'],
    [LONGEST, LONGEST, 'readings'],
  ])('of %s and %s are read as such by the service', async (site, probe, kind) => {
    const [result, topic = ''] = (await encoder.ask('topic', 96, kind, site, probe)).split(' ');
    expect(Number(result)).toBe(RESULT.OK);
    expect(parseTopic(topic)).toEqual({ site, probe, kind });
  });

  test.each(['Ridge', '-a', 'a_b', 'a/b', '+', 'é', 'a'.repeat(33), 'a\u007f'])(
    'of %s there are none',
    async (id) => {
      expect(await encoder.ask('topic', 96, 'readings', id, 'p01')).toBe(`${RESULT.BAD_ID} `);
      expect(await encoder.ask('topic', 96, 'status', 's', id)).toBe(`${RESULT.BAD_ID} `);
      expect(parseTopic(`sandlarder/v1/${id}/probes/p01/readings`)).toBeUndefined();
    },
  );

  test('a buffer one byte too small holds none', async () => {
    const topic = 'sandlarder/v1/s/probes/p/status';
    expect(await encoder.ask('topic', topic.length + 1, 'status', 's', 'p')).toBe(`${RESULT.OK} ${topic}`);
    expect(await encoder.ask('topic', topic.length, 'status', 's', 'p')).toBe(`${RESULT.TOO_SMALL} `);
    expect(await encoder.ask('topic', 0, 'status', 's', 'p')).toBe(`${RESULT.TOO_SMALL} `);
  });
});
