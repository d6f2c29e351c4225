import { describe, expect, test } from 'vitest';
import { ledgerApp } from '../support/ledger.js';
import { placesOf, problemOfAnswer } from './answers.js';

async function open() {
  const { post } = await ledgerApp();
  return (change: object = {}) => post('/api/trial-power', { difference: 10, sd: 8, ...change });
}

const MISTAKES: readonly [object, string][] = [
  [{ difference: 0 }, '#/difference'],
  [{ difference: '10' }, '#/difference'],
  [{ sd: -1 }, '#/sd'],
  [{ sd: undefined }, '#/sd'],
  [{ treatments: 1 }, '#/treatments'],
  [{ treatments: 2.5 }, '#/treatments'],
  [{ design: 'latin' }, '#/design'],
  [{ alpha: 0.6 }, '#/alpha'],
  [{ power: 1 }, '#/power'],
  [{ beds: 1 }, '#/beds'],
  [{ beds: 4, power: 0.8 }, '#/beds'],
  [{ outcome: 'loss' }, '#/outcome'],
];

describe('how many beds a trial needs', () => {
  test('is what the command says', async () => {
    const ask = await open();
    // [1.25 standard deviations, noncentral t: 12 beds of each give 0.83, 11 less than 0.8]
    expect((await ask()).json()).toEqual({
      ...{ bedsOfEach: 12, bedsInAll: 24, power: expect.closeTo(0.83, 1) },
      ...{ design: 'complete', treatments: 2, difference: 10, sd: 8, alpha: 0.05 },
    });
    const few = (await ask({ beds: 4, treatments: 3, design: 'blocks' })).json();
    expect([few.bedsOfEach, few.bedsInAll, few.power < 0.5]).toEqual([4, 12, true]);
    expect((await ask({ power: 0.95 })).json().bedsOfEach).toBeGreaterThan(12);
  });

  test('is answered at the ends of what may be asked', async () => {
    const ask = await open();
    const ends = { sd: 1e-9, difference: 1e9, treatments: 20, alpha: 1e-6, power: 0.999, design: 'blocks' };
    expect((await ask(ends)).json().bedsOfEach).toBe(2);
    const answer = await ask({ ...ends, beds: 10_000, power: undefined });
    expect([answer.statusCode, answer.json().power]).toEqual([200, 1]);
  });

  test('is refused where no number of beds would do, and by the names of what is wrong', async () => {
    const ask = await open();
    expect(problemOfAnswer(await ask({ sd: 1e6, treatments: 20 }), 400).detail).toMatch(
      /expected at most 10000 .* the difference is too small beside the scatter/,
    );
    for (const [change, place] of MISTAKES)
      expect(placesOf(problemOfAnswer(await ask(change), 400)), JSON.stringify(change)).toEqual([place]);
  });
});
