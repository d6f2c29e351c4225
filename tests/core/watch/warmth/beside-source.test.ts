import { describe, expect, test } from 'vitest';
import { seasonsOf } from '../../../../services/commands/evaluation/season.js';
import { sandWatch } from '../../../../services/core/watch/sand-watch.js';
import { heldBeside } from '../../../../services/core/watch/warmth/beside-source.js';
import { scenarioSchema } from '../../../../simulator/scenario.js';

const expectation = (expected_C: number) => ({ expected_C, band_C: 0.1 });

describe('beside a told source', () => {
  test('what is expected goes on as at the probe that the source touches least', () => {
    const held = heldBeside(
      [expectation(15), expectation(22.3), expectation(21)],
      [expectation(21.5), expectation(22), expectation(20.9)],
      [6, 0.01, 0.05],
    );
    expect(held.map(({ expected_C }) => expected_C)).toEqual([expect.closeTo(21.8), 22.3, 21]);
    expect(held.map(({ band_C }) => band_C)).toEqual([expect.closeTo(0.412, 3), 0.1, 0.1]);
  });

  test('a probe of which nothing was expected before is taken as the filter has it', () => {
    const held = heldBeside([expectation(15), expectation(22)], [null, expectation(22)], [6, 0]);
    expect(held).toEqual([expectation(15), expectation(22)]);
    expect(heldBeside([expectation(15), expectation(22)], [expectation(21), null], [6, 0])).toHaveLength(2);
  });
});

/** A cluster that is grown in three days, ten centimetres from a probe. */
const STRONG = scenarioSchema.parse({
  name: 'strong source beside a probe',
  site: { id: 'ridge-station', name: 'Ridge station', timezone: 'Africa/Lusaka' },
  ...{ days: 32, everyMinutes: 60, deepGround_C: 21, shade: ['p09'] },
  weather: { means: [[0, 19]], swing_C: 11, dewPoint_C: 9 },
  beds: [
    {
      ...{ id: 'pit-a', name: 'Pit A', kind: 'stepped-pit' },
      steps: [
        { length: 150, width: 100, height: 25 },
        { length: 150, width: 60, height: 25 },
      ],
      roots: { count: 400, mass_kg: 110 },
      probes: [
        { id: 'p01', x: 75, y: 40, depth: 30 },
        { id: 'p02', x: 30, y: 50, depth: 30 },
        { id: 'p03', x: 120, y: 50, depth: 35 },
        { id: 'p04', x: 75, y: 65, depth: 15 },
      ],
      rots: [{ startDay: 20, x: 83, y: 47, depth: 32, grown_W: 5, growth_days: 3 }],
    },
  ],
  faults: { lost: 0, outageEvery_days: 0 },
});

test('a strong source beside a probe is told by the second day, and its warmth is shown as it is for days', () => {
  const [season] = [...seasonsOf('strong', STRONG, 1)];
  if (!season) throw new Error('no season');
  const watch = sandWatch.open(season.watched);
  let toldDay = Number.POSITIVE_INFINITY;
  const errors = season.hours.map((hour, index) => {
    const { changes, judgements } = watch.step(hour);
    if (changes.some(({ kind, action }) => kind === 'heating' && action === 'unpack'))
      toldDay = Math.min(toldDay, index / 24);
    const truth = season.trueHours[index]?.sands.find(({ probe }) => probe === 'p01')?.excess_C ?? 0;
    return Math.abs((judgements.get('p01')?.excess_C ?? truth) - truth);
  });
  expect(toldDay).toBeLessThan(22);
  // What the filter alone makes of it is off by several degrees by then.
  expect(Math.max(...errors.slice(22 * 24))).toBeLessThan(1.5);
});
