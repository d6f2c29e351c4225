import { describe, expect, test } from 'vitest';
import { keptSeason, warmthOver } from '../support/kept-season.js';
import { day, entry, ledgerApp } from '../support/ledger.js';
import { placesOf, problemOfAnswer } from './answers.js';

const url = '/api/beds/pit-t/outlook';

interface Left {
  low: number;
  likely: number;
  high: number;
}

describe('GET outlook', () => {
  test('says what will be left by month as a band about what is there, by looks and temperatures', async () => {
    const { get, reported } = await keptSeason();
    const answer = await get(url);
    expect(answer.statusCode).toBe(200);
    const found = answer.json();
    expect(found).toMatchObject({
      bed: 'pit-t',
      name: 'Pit T',
      at: day(60),
      since: day(0),
      roots: 250,
      looks: 2,
    });
    expect(found.months).toHaveLength(6);
    let before: Left = { low: 250, likely: 250, high: 250 };
    for (const { left, mean_C, warmthFrom } of found.months as {
      left: Left;
      mean_C: number;
      warmthFrom: string;
    }[]) {
      expect(left.low).toBeLessThan(left.likely);
      expect(left.likely).toBeLessThan(left.high);
      expect(left.likely).toBeLessThan(before.likely);
      expect(left.high - left.low).toBeGreaterThan(before.high - before.low);
      expect([mean_C, warmthFrom]).toEqual([22, 'the last week']);
      before = left;
    }
    expect(found).toMatchObject({ weeksOfFood: null, holdOrSell: null, priceOfRoot: null });
    expect(found.notes.join(' ')).toMatch(/judgement: 18 % in 3 months/);
    expect(reported).toEqual([]);
  });

  test('knows more of itself with its looks, and little before the first', async () => {
    const { get, goTo } = await keptSeason();
    const later = (await get(url)).json();
    goTo(1);
    const early = (await get(url)).json();
    expect(early).toMatchObject({ ownShare: 0, looks: 0, roots: 350 });
    expect(later.ownShare).toBeGreaterThan(0.05);
    expect(later.ownShare).toBeLessThan(1);
  });

  test('is that of a warmer month where the same days of the year before were warmer', async () => {
    const app = await keptSeason();
    const first = (answer: { json(): { months: { left: Left; mean_C: number; warmthFrom: string }[] } }) =>
      answer.json().months[0];
    const usual = first(await app.get(url));
    app.commit([warmthOver(60 - 365, 90 - 365, 29)]);
    const warmer = first(await app.get(url));
    expect(warmer).toMatchObject({ mean_C: 29, warmthFrom: 'the same days a year before' });
    expect(warmer?.left.likely).toBeLessThan(usual?.left.likely as number);
  });

  test('without readings takes a usual warmth, and says so', async () => {
    const app = await ledgerApp();
    await app.post(
      '/api/beds/pit-t/stock',
      entry(1, { at: day(0), kind: 'in', reason: 'filled', roots: 100 }),
    );
    app.goTo(2);
    const found = (await app.get(url)).json();
    expect(found.months[0]).toMatchObject({ mean_C: 22, warmthFrom: 'no readings' });
    expect(found.notes.join(' ')).toContain('no readings: the bed is taken to have 22 °C');
  });

  test('says for how many weeks it feeds, by roots or by kg of roots that were weighed', async () => {
    const { get } = await keptSeason();
    const byRoots = (await get(`${url}?persons=5&rootsPerPersonWeek=4`)).json();
    expect(byRoots.eatenPerDay).toBeCloseTo(20 / 7, 3);
    expect(byRoots.weeksOfFood.low).toBeLessThan(byRoots.weeksOfFood.likely);
    expect(byRoots.weeksOfFood.likely).toBeLessThan(250 / 20);
    expect((await get(`${url}?persons=5&kgPerPersonWeek=1.2`)).json().weeksOfFood).toEqual(
      byRoots.weeksOfFood,
    );
  });

  test('says by how much the price must rise, and whether what is expected pays; no price is built in', async () => {
    const { get } = await keptSeason();
    const found = (
      await get(`${url}?months=3&price=10&costPerMonth=50&interestPercent=2&expectedPrice=40`)
    ).json();
    expect(found.priceOfRoot).toBe(10);
    expect(found.holdOrSell).toHaveLength(3);
    const [first] = found.holdOrSell;
    expect(first.rise.ifFewAreLost).toBeLessThan(first.rise.likely);
    expect(first.rise.likely).toBeLessThan(first.rise.ifManyAreLost);
    expect(first.holding).toBe('pays');
    // 250 roots at 10 with 2 % and 50 of cost, over those that are likely left.
    const left = found.months[0].left.likely;
    expect(first.breakEvenPrice).toBeCloseTo((2500 * 1.02 + 50) / left, 2);
    const cheap = (await get(`${url}?months=1&price=10&expectedPrice=9`)).json();
    expect(cheap.holdOrSell[0].holding).toBe('does-not-pay');
    const byKg = (await get(`${url}?months=1&pricePerKg=20`)).json();
    expect(byKg.priceOfRoot).toBeCloseTo(20 * (105 / 350), 6);
  });
});

describe('an outlook is refused', () => {
  test.each([
    ['months=0', ['months']],
    ['months=13', ['months']],
    ['months=2.5', ['months']],
    ['persons=0&rootsPerPersonWeek=4', ['persons']],
    ['persons=5', ['persons']],
    ['rootsPerPersonWeek=4', ['persons']],
    ['persons=5&rootsPerPersonWeek=4&kgPerPersonWeek=1', ['persons']],
    ['price=0', ['price']],
    ['price=-1', ['price']],
    ['price=1e3', ['price']],
    ['price=x', ['price']],
    ['price=1&pricePerKg=1', ['pricePerKg']],
    ['expectedPrice=9', ['price']],
    ['costPerMonth=9', ['price']],
    ['interestPercent=101&price=1', ['interestPercent']],
    ['prices=9', ['prices']],
  ])('for %s, by name', async (query, places) => {
    const { get } = await ledgerApp();
    expect(placesOf(problemOfAnswer(await get(`${url}?${query}`), 400))).toEqual(places);
  });

  test('for a bed that is not known, or whose roots were never written down', async () => {
    const { get } = await ledgerApp();
    problemOfAnswer(await get('/api/beds/pit-z/outlook'), 404);
    expect(problemOfAnswer(await get(url), 422)).toMatchObject({ code: 'TOO_FEW_SAMPLES' });
  });

  test('for kilograms where no root was weighed', async () => {
    const { get, post } = await ledgerApp();
    await post('/api/beds/pit-t/stock', entry(1, { at: day(0), kind: 'in', reason: 'filled', roots: 100 }));
    expect(problemOfAnswer(await get(`${url}?pricePerKg=2`), 400).detail).toContain('was not weighed');
    problemOfAnswer(await get(`${url}?persons=2&kgPerPersonWeek=2`), 400);
  });
});
