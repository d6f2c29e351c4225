import { describe, expect, test } from 'vitest';
import type { PlanQuestion } from '../../services/core/keeping/index.js';
import { PlanDesk } from '../../services/joining/plan-desk.js';

/** The sources have no worker. */
const BUILT = new URL('../../.build/services/joining/plan-desk.js', import.meta.url);

const BOX: PlanQuestion = { kind: 'box', steps: [{ length: 60, width: 40, height: 40 }], probes: 0 };

describe('the desk for plans', () => {
  test('refuses the fourth question, and takes one again once another is answered', async () => {
    const waiting: (() => void)[] = [];
    const real = new PlanDesk();
    const desk = new PlanDesk(async (question) => {
      await new Promise<void>((resolve) => waiting.push(resolve));
      return real.answer(question);
    });
    const asked = [1, 2, 3].map((roots) => desk.answer({ ...BOX, roots }));
    await expect(desk.answer({ ...BOX, roots: 4 })).rejects.toMatchObject({
      code: 'LIMIT_EXCEEDED',
      message: expect.stringMatching(/^plan: expected at most 3 questions at a time/),
    });
    const turn = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
    for (const _ of asked) {
      while (waiting.length === 0) await turn();
      waiting.shift()?.();
    }
    expect((await Promise.all(asked)).map(({ roots }) => roots)).toEqual([1, 2, 3]);
    const again = desk.answer({ ...BOX, roots: 4 });
    while (waiting.length === 0) await turn();
    waiting.shift()?.();
    expect((await again).roots).toBe(4);
  });

  test('with a compiled worker plans in a thread, and refuses with the code of the core', async () => {
    const { PlanDesk: Built } = (await import(BUILT.href)) as { PlanDesk: typeof PlanDesk };
    const desk = new Built();
    const plan = await desk.answer({ ...BOX, probes: 1 });
    expect(plan).toMatchObject({ volume_L: { total: 96 }, probes: [{ id: 'p1' }] });
    await expect(desk.answer({ ...BOX, steps: [{ length: 5, width: 5, height: 5 }] })).rejects.toMatchObject({
      code: 'OUT_OF_DOMAIN',
      name: 'SandlarderError',
    });
    const left = desk.answer({ ...BOX, probes: 2 });
    await Promise.all([desk.close(), expect(left).rejects.toMatchObject({ code: 'STORE_UNAVAILABLE' })]);
    await expect(desk.answer({ ...BOX, probes: 3 })).rejects.toMatchObject({ code: 'STORE_UNAVAILABLE' });
  });
});
