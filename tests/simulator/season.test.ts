import { describe, expect, test } from 'vitest';
import type { Delivery } from '../../simulator/delivery.js';
import { loadScenario } from '../../simulator/index.js';
import type { Scenario } from '../../simulator/scenario.js';
import { simulateSeason } from '../../simulator/season.js';

const scenario: Scenario = { ...loadScenario('demo-site'), days: 3, everyMinutes: 60 };

async function daysOf(season: AsyncGenerator<readonly Delivery[]>): Promise<(readonly Delivery[])[]> {
  const days: (readonly Delivery[])[] = [];
  for await (const day of season) days.push(day);
  return days;
}

const inOrder = (times: readonly number[]): boolean =>
  times.every((time, index) => index === 0 || time >= (times[index - 1] as number));

describe('a whole site', () => {
  test('sends day by day in order of time, every probe of it', async () => {
    const days = await daysOf(simulateSeason(scenario, 2));
    expect(days).toHaveLength(3);
    expect(inOrder(days.flat().map(({ at_s }) => at_s))).toBe(true);
    const probes = scenario.beds.flatMap((bed) => bed.probes.map(({ id }) => id));
    expect(new Set(days.flat().map(({ probe }) => probe))).toEqual(new Set([...probes, ...scenario.shade]));
  });

  test('can be left before its end', async () => {
    const season = simulateSeason(scenario, 2);
    await season.next();
    await season.return(undefined);
    expect(await season.next()).toEqual({ value: undefined, done: true });
  });
});

/** The build has threads, the sources have none: `npm test` builds before it tests. */
const BUILT = new URL('../../.build/simulator/season.js', import.meta.url).href;

describe('in threads, as built', () => {
  test('it sends the same', async () => {
    const built = (await import(BUILT)) as { simulateSeason: typeof simulateSeason };
    expect(await daysOf(built.simulateSeason(scenario, 2))).toEqual(
      await daysOf(simulateSeason(scenario, 2)),
    );
  });

  test('it can be left before its end', async () => {
    const built = (await import(BUILT)) as { simulateSeason: typeof simulateSeason };
    const season = built.simulateSeason({ ...scenario, days: 150 }, 2);
    await season.next();
    await season.return(undefined);
    expect(await season.next()).toEqual({ value: undefined, done: true });
  });

  test('a thread that fails is told of', async () => {
    const built = (await import(BUILT)) as { simulateSeason: typeof simulateSeason };
    const [bed] = scenario.beds;
    const broken = { ...scenario, beds: [{ ...bed, steps: [{ length: 0, width: 0, height: 0 }] }] };
    await expect(daysOf(built.simulateSeason(broken as unknown as Scenario, 2))).rejects.toThrow(
      /expected a span and a step of some width, got 0 to 0 m/,
    );
  });
});
