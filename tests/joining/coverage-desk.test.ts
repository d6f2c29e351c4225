import { describe, expect, test } from 'vitest';
import { SandlarderError } from '../../services/core/errors.js';
import type { CoverageAnswer, CoverageTask } from '../../services/core/watch/coverage/index.js';
import { CoverageDesk } from '../../services/joining/coverage-desk.js';

/** The sources have no worker. */
const BUILT = new URL('../../.build/services/joining/coverage-desk.js', import.meta.url);

const ANSWER: CoverageAnswer = {
  coverage: { share: 0.5, blindShare: 0.2, blindSpots: [], places: [] },
};

const task = (power_W: number): CoverageTask => ({
  bed: { kind: 'box', steps: [{ length: 40, width: 40, height: 40 }] },
  points: [],
  question: {
    power_W,
    days: 7,
    shade: true,
    rates: { unpack_per_bed_month: 1e-4, check_per_bed_month: 0.1 },
  },
  next: false,
});

/** Answers one question after the other when it is told to. */
function byHand() {
  const under: { power_W: number; answer: () => void; fail: (error: Error) => void }[] = [];
  const desk = new CoverageDesk(
    ({ question: { power_W } }) =>
      new Promise((resolve, reject) => {
        under.push({ power_W, answer: () => resolve(ANSWER), fail: reject });
      }),
  );
  return { desk, under };
}

const turn = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

describe('the desk', () => {
  test('answers the same question once, also while it is under way', async () => {
    const { desk, under } = byHand();
    const [one, same] = [desk.answer(task(2)), desk.answer(task(2))];
    await turn();
    under[0]?.answer();
    expect(await one).toBe(await same);
    expect(await desk.answer(task(2))).toBe(ANSWER);
    expect(under).toHaveLength(1);
  });

  test('works at one at a time, in order, and refuses the sixth', async () => {
    const { desk, under } = byHand();
    const answers = [1, 2, 3, 4, 5].map((power_W) => desk.answer(task(power_W)));
    await expect(desk.answer(task(6))).rejects.toMatchObject({ code: 'LIMIT_EXCEEDED' });
    for (const count of [1, 2, 3, 4, 5]) {
      await turn();
      expect(under.map(({ power_W }) => power_W)).toEqual([1, 2, 3, 4, 5].slice(0, count));
      under[count - 1]?.answer();
    }
    await Promise.all(answers);
    const again = desk.answer(task(6));
    await turn();
    under[5]?.answer();
    expect(await again).toBe(ANSWER);
  });

  test('asks anew what failed, and goes on after it', async () => {
    const { desk, under } = byHand();
    const first = desk.answer(task(1));
    const second = desk.answer(task(2));
    await turn();
    under[0]?.fail(new SandlarderError('LIMIT_EXCEEDED', 'too large'));
    await expect(first).rejects.toThrow('too large');
    await turn();
    under[1]?.answer();
    expect(await second).toBe(ANSWER);
    const again = desk.answer(task(1));
    await turn();
    expect(under.map(({ power_W }) => power_W)).toEqual([1, 2, 1]);
    under[2]?.answer();
    await again;
  });

  test('keeps no more than so many answers', async () => {
    let asked = 0;
    const desk = new CoverageDesk(async () => {
      asked += 1;
      return ANSWER;
    });
    for (let power = 0; power <= 32; power += 1) await desk.answer(task(1 + power / 10));
    await desk.answer(task(1 + 32 / 10));
    expect(asked).toBe(33);
    await desk.answer(task(1));
    expect(asked).toBe(34);
  });

  test('without a compiled worker answers in this thread, and refuses as the core does', async () => {
    const desk = new CoverageDesk();
    const { coverage } = await desk.answer(task(2));
    expect(coverage.share).toBe(0);
    await expect(desk.answer(task(99))).rejects.toMatchObject({ code: 'OUT_OF_DOMAIN' });
  });

  test('with a compiled worker answers in a thread: this one goes on meanwhile, and what is refused has its code', async () => {
    const { CoverageDesk: Built } = (await import(BUILT.href)) as { CoverageDesk: typeof CoverageDesk };
    const desk = new Built();
    let beats = 0;
    const beating = setInterval(() => {
      beats += 1;
    }, 1);
    const answer = await desk.answer({ ...task(2), points: [{ x: 20, y: 20, depth: 20 }] });
    clearInterval(beating);
    expect(answer.coverage.places.length).toBeGreaterThan(50);
    expect(beats).toBeGreaterThan(5);
    await expect(desk.answer(task(99))).rejects.toMatchObject({
      code: 'OUT_OF_DOMAIN',
      name: 'SandlarderError',
    });
    const left = desk.answer(task(3));
    await turn();
    await Promise.all([desk.close(), expect(left).rejects.toMatchObject({ code: 'STORE_UNAVAILABLE' })]);
  });
});
