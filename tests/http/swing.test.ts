/** The outdoor swing that arrives, over a real station. */
import { describe, expect, test } from 'vitest';
import { DAY_ms, formatTime, HOUR_ms } from '../../services/core/model/time.js';
import { FILLED_AT, ledgerApp, ledgerSite, look, uuid } from '../support/ledger.js';
import type { Message } from '../support/season.js';
import { placesOf, problemOfAnswer } from './answers.js';

const URL = '/api/beds/pit-t/swing';
/** Midnight UTC, after the filling. */
const FIRST = Math.ceil(FILLED_AT / DAY_ms) * DAY_ms;
const midnight = (days: number): string => formatTime(FIRST + days * DAY_ms);

const wave =
  (mean: number, amplitude: number, later_h = 0) =>
  (at: number): number =>
    mean + amplitude * Math.cos((2 * Math.PI * (at - later_h * HOUR_ms)) / DAY_ms);

/** Half-hourly over days from the first midnight. */
function told(probe: string, temperature: (at: number) => number, days = 14): Message {
  const records: object[] = [];
  for (let at = FIRST; at < FIRST + days * DAY_ms; at += HOUR_ms / 2)
    records.push({ n: 'temperature', u: 'Cel', v: Number(temperature(at).toFixed(3)), t: at / 1000 });
  return { topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`, payload: JSON.stringify(records) };
}

const PLACED = [{ bed: 'pit-t', x: 75, y: 50, depth: 20, from: formatTime(FILLED_AT) }];
const SHADE = told('p09', wave(22, 6));
const SOUND = told('p01', wave(20, 0.6, 9));

async function opened(messages: readonly Message[] = [SHADE, SOUND], placements: object[] = PLACED) {
  const app = await ledgerApp({ site: ledgerSite({ filled: formatTime(FILLED_AT) }, placements) });
  app.goTo(40);
  app.commit(messages);
  return app;
}

describe('the daily swing that arrives', () => {
  test('is a share a day, as soon as five days are there', async () => {
    const app = await opened();
    const answer = await app.get(`${URL}?from=${midnight(0)}&to=${midnight(8)}`);
    expect(answer.statusCode).toBe(200);
    const { shade, missing, threshold, probes } = answer.json();
    expect([shade, missing]).toEqual([['p09'], null]);
    expect(threshold).toMatchObject({ name: 'damp_swing_share', value: 0.15 });
    expect(probes).toHaveLength(1);
    const [swing] = probes;
    expect(swing).toMatchObject({ probe: 'p01', depth: 20, cover: 20 });
    expect(swing.time).toEqual([1, 2, 3, 4, 5, 6, 7, 8].map(midnight));
    // 84 of 120 hours are needed: three and a half days.
    expect(swing.because).toEqual(['no-shade', 'no-shade', 'no-shade', null, null, null, null, null]);
    // 0.6 of 6 °C; hourly means of half-hourly values take the same off both.
    for (const share of swing.share.slice(3)) expect(share).toBeCloseTo(0.1, 2);
    expect(swing.atMost).toEqual(Array(8).fill(false));
  });

  test('stands beside what dry, damp and wet sand let through there', async () => {
    const app = await opened();
    const [{ lets }] = (await app.get(URL)).json().probes;
    // Dry sand with a fifth of roots, 0.15e-6 m2/s: exp(-20 / 6.4) x exp(-0.39) for the still air, by hand.
    expect(lets.dry).toBeCloseTo(0.03, 2);
    expect(lets.dampFrom).toBeGreaterThan(lets.dry);
    expect(lets.wetFrom).toBeGreaterThan(lets.dampFrom);
    expect(lets.wetFrom).toBeLessThan(0.2);
    expect(lets.factor).toBeGreaterThan(2);
  });

  test('of a depth at which nothing can be seen is a bound', async () => {
    const noise = (at: number) => 20 + ((at / HOUR_ms) % 7) / 20 + ((at / HOUR_ms) % 5) / 20;
    const app = await opened([SHADE, told('p01', noise)]);
    const [swing] = (await app.get(`${URL}?from=${midnight(7)}&to=${midnight(9)}`)).json().probes;
    expect(swing.atMost).toContain(true);
    expect(swing.uncertainty[swing.atMost.indexOf(true)]).toBeNull();
  });

  test('is learned anew after an opening', async () => {
    const app = await opened();
    const at = formatTime(FIRST + 7 * DAY_ms + 2 * HOUR_ms);
    const answer = await app.post('/api/beds/pit-t/inspections', look(1, { id: uuid(1), at }));
    expect(answer.statusCode).toBe(201);
    const [swing] = (await app.get(`${URL}?from=${midnight(6)}&to=${midnight(13)}`)).json().probes;
    const few = 'too-few-hours';
    expect(swing.because).toEqual([null, few, few, few, null, null, null].slice(0, swing.time.length));
  });

  test('is not known where it swings too little outside', async () => {
    const app = await opened([told('p09', wave(22, 1)), SOUND]);
    const [swing] = (await app.get(`${URL}?from=${midnight(6)}&to=${midnight(8)}`)).json().probes;
    expect(swing.because).toEqual(['little-swing', 'little-swing']);
    expect(swing.share).toEqual([null, null]);
  });

  test('without a shade probe says so, and what sand lets through all the same', async () => {
    const site = ledgerSite({ filled: formatTime(FILLED_AT) }, PLACED);
    const app = await ledgerApp({ site: { ...site, probes: site.probes.filter(({ id }) => id !== 'p09') } });
    app.goTo(40);
    app.commit([SOUND]);
    const { shade, missing, probes } = (await app.get(URL)).json();
    expect(shade).toEqual([]);
    expect(missing).toMatch(/No probe stood in the shade outside/);
    expect(probes).toMatchObject([{ probe: 'p01', time: [], share: [] }]);
    expect(probes[0].lets.dry).toBeGreaterThan(0);
  });

  test('of a probe that was moved is of each place by itself', async () => {
    const moved = [
      { ...PLACED[0], to: midnight(7) },
      { bed: 'pit-t', x: 75, y: 50, depth: 10, from: midnight(7) },
    ];
    const app = await opened([SHADE, SOUND], moved);
    const { probes } = (await app.get(`${URL}?from=${midnight(5)}&to=${midnight(12)}`)).json();
    expect(probes.map(({ depth }: { depth: number }) => depth)).toEqual([20, 10]);
    expect(probes[0].time.at(-1)).toBe(midnight(7));
    expect(probes[1].because.slice(0, 3)).toEqual(Array(3).fill('too-few-hours'));
  });

  test('does not rest on values that the watch does not use', async () => {
    const broken = (at: number) => (at % DAY_ms === 6 * HOUR_ms ? 70 : wave(20, 0.6, 9)(at));
    const app = await opened([SHADE, told('p01', broken)]);
    app.settle();
    expect(app.archive.flags.totals().size).toBeGreaterThan(0);
    const [swing] = (await app.get(`${URL}?from=${midnight(8)}&to=${midnight(9)}`)).json().probes;
    expect(swing.share[0]).toBeCloseTo(0.1, 2);
  });
});

describe('the swing is refused', () => {
  test.each([
    ['from=yesterday', ['from']],
    ['to=', ['to']],
    ['points=10', ['points']],
    ['from=2026-05-30', ['from']],
  ])('for %s, by name', async (query, places) => {
    const app = await opened([]);
    expect(placesOf(problemOfAnswer(await app.get(`${URL}?${query}`), 400))).toEqual(places);
  });

  test.each([
    ['an end before the start', `from=${midnight(3)}&to=${midnight(2)}`, 'BAD_REQUEST'],
    ['more than 400 days', `from=${midnight(0)}&to=${midnight(401)}`, 'LIMIT_EXCEEDED'],
  ])('for %s', async (_what, query, code) => {
    const app = await opened([]);
    expect(problemOfAnswer(await app.get(`${URL}?${query}`), 400).code).toBe(code);
  });

  test('for a bed that is not known', async () => {
    problemOfAnswer(await (await opened([])).get('/api/beds/pit-z/swing'), 404);
  });
});
