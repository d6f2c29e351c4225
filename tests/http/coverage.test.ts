import { describe, expect, test } from 'vitest';
import { SandlarderError } from '../../services/core/errors.js';
import { appOver, placesOf, problemOfAnswer } from './answers.js';
import { PortsInMemory } from './ports.js';

const coverage = '/api/beds/pit-a/coverage';
const ask = async (url: string, ports = new PortsInMemory()) => {
  const answer = await (await appOver(ports)).inject(url);
  return { answer, asked: ports.coverages[0] };
};

describe('coverage', () => {
  test('gives the share, the blind spots in numbers and words, and the places; no next where none was asked', async () => {
    const { answer } = await ask(coverage);
    const spot = { x: 120, y: 20, depth: 12.5, radius: 30, share: 0.123 };
    const where =
      'a third down, about a span from the north-west side and about a span and a hand from the far end';
    expect(answer.json()).toEqual({
      ...{ bed: 'pit-a', power_W: 2, days: 7, probes: 2, shade: true, share: 0.412, blindShare: 0.5 },
      blindSpots: [
        { ...spot, foundAfter_days: null, where },
        { ...spot, foundAfter_days: 10, where },
      ],
      places: [{ x: 3, y: 3, depth: 3, chance: 0.988 }],
    });
  });

  test('of 2 W in 7 days where nothing is said', async () => {
    expect((await ask(coverage)).asked).toEqual({ power_W: 2, days: 7, next: false });
  });

  test.each([
    ['power=0.5&days=1&next=false', { power_W: 0.5, days: 1, next: false }],
    ['power=8&days=21&next=true', { power_W: 8, days: 21, next: true }],
  ])('of %s, at the edges', async (query, asked) => {
    expect((await ask(`${coverage}?${query}`)).asked).toEqual(asked);
  });

  test('says where the next probe would help, and null where none would', async () => {
    expect((await ask(`${coverage}?next=true`)).answer.json().next).toEqual({
      ...{ x: 75, y: 17, depth: 13, share: 0.5 },
      where: 'a third down, about a span from the north-west side, half-way along',
    });
    expect((await ask('/api/beds/box-b/coverage?next=true')).answer.json().next).toBeNull();
  });
});

describe('coverage is refused', () => {
  test.each([
    ['power=0.4', ['power']],
    ['power=8.1', ['power']],
    ['power=', ['power']],
    ['power=2e0', ['power']],
    ['power=-2', ['power']],
    ['power=2.', ['power']],
    ['power=NaN', ['power']],
    ['power=Infinity', ['power']],
    ['power=2&power=2', ['power']],
    ['days=0', ['days']],
    ['days=22', ['days']],
    ['days=6.5', ['days']],
    ['days=x', ['days']],
    ['next=yes', ['next']],
    ['next=', ['next']],
    ['next=1', ['next']],
    ['next=toString', ['next']],
    ['watts=2', ['watts']],
    ['power=x&days=y&next=z', ['power', 'days', 'next']],
  ])('for %s, by name', async (query, places) => {
    const { answer, asked } = await ask(`${coverage}?${query}`);
    expect(placesOf(problemOfAnswer(answer, 400)).sort()).toEqual([...places].sort());
    expect(asked).toBeUndefined();
  });

  test('for a bed that is not known', async () => {
    problemOfAnswer((await ask('/api/beds/pit-z/coverage')).answer, 404);
  });

  test('where too much is asked at a time, with the code', async () => {
    const busy = { coverage: () => Promise.reject(new SandlarderError('LIMIT_EXCEEDED', 'ask again')) };
    const app = await appOver(Object.assign(new PortsInMemory(), busy));
    expect(problemOfAnswer(await app.inject(coverage), 400)).toMatchObject({
      code: 'LIMIT_EXCEEDED',
      detail: 'ask again',
    });
  });
});
