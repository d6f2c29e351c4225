import { describe, expect, test } from 'vitest';
import { DAY_ms, formatTime, HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { ANSWERS } from '../core/keeping/a-bed-to-fill.js';
import { GOOD_SAND } from '../core/keeping/some-sand.js';
import { BENCH_AT } from '../support/bench-work.js';
import { daily, SOUND, toldBy } from '../support/keeping-readings.js';
import { keepingSite } from '../support/keeping-site.js';
import { placesOf, problemOfAnswer } from './answers.js';
import { stationApp } from './station-app.js';

const AT = formatTime(BENCH_AT);
const NEXT = { by: 'A. Keeper', at: formatTime(BENCH_AT + 10 * DAY_ms) };
const { sieving: _, weighing, nextLook: __, ...SAID } = ANSWERS;
const BODY = {
  at: AT,
  by: 'A. Keeper',
  answers: { ...SAID, sandTemperature_C: 22, weighing, sieving: GOOD_SAND, nextLook: NEXT },
};
const pit = '/api/beds/pit-k/readiness';
const box = '/api/beds/box-k/readiness';

interface Item {
  id: string;
  state: string;
  measure: string;
  answeredBy: string;
  limits: { value: number; source: string }[];
}

async function open({
  messages = SOUND,
  ...site
}: { messages?: typeof SOUND } & Parameters<typeof keepingSite>[0] = {}) {
  const app = await stationApp();
  app.load(keepingSite(site), BENCH_AT - 30 * DAY_ms);
  app.station.refresh();
  app.commit([...messages]);
  return {
    ...app,
    itemOf: async (url: string, id: string): Promise<Item | undefined> =>
      ((await app.get(url)).json().items as Item[]).find((item) => item.id === id),
    rows: (table: string): unknown => app.database.prepare(`SELECT count(*) FROM ${table}`).pluck().get(),
  };
}

describe('GET readiness', () => {
  test('answers by the probes of an open pit, and says what is to be answered by hand', async () => {
    const { get, itemOf } = await open();
    const found = (await get(pit)).json();
    expect(found).toMatchObject({ bed: 'pit-k', at: AT, verdict: 'not ready', answers: {}, record: null });
    expect(await itemOf(pit, 'pit-dry')).toMatchObject({
      state: 'met',
      measure: '75.0 %RH (k01)',
      answeredBy: 'probe',
    });
    expect(await itemOf(pit, 'curing')).toMatchObject({ state: 'unknown', measure: 'not answered' });
    expect(await itemOf(pit, 'probes-speaking')).toMatchObject({ state: 'met' });
    expect(await itemOf(pit, 'probes-calibrated')).toMatchObject({ state: 'not met' });
    expect(found.cautions.join(' ')).toContain('cave in');
    expect(found.items.every((item: { reason: string; source: string }) => item.reason && item.source)).toBe(
      true,
    );
  });

  test('answers by the sand of a box against the shade, through the calibration in force', async () => {
    const { get, itemOf, post } = await open();
    expect(await itemOf(box, 'sand-temperature')).toMatchObject({ state: 'met', measure: '22.0 °C (k02)' });
    expect(await itemOf(box, 'sand-cooled')).toMatchObject({ state: 'met', measure: '0.0 °C (k02)' });
    const done = await post('/api/calibrations', {
      ...{ site: 'keeping-ridge', probe: 'k02', quantity: 'temperature', by: 'bench-hand', fit: {} },
      ...{
        reference: { name: 'station thermometer' },
        conditions: {},
        doneAt: formatTime(BENCH_AT - 5 * DAY_ms),
      },
      points: [10, 30].map((indicated) => ({
        ...{ indicated, reference: indicated + 3, referenceUncertainty: 0.05, source: 'instrument' },
      })),
    });
    expect(done.statusCode).toBe(201);
    expect(await itemOf(box, 'sand-cooled')).toMatchObject({ state: 'not met', measure: '3.0 °C (k02)' });
    expect((await get(box)).json().items.map(({ id }: Item) => id)).not.toContain('pit-dry');
  });

  test('goes by the last two days alone, and by the limits of the bed', async () => {
    const wetBefore = toldBy('k01', { humidity: () => 99, from_h: 120, to_h: 72 });
    const { itemOf } = await open({ messages: [...SOUND, wetBefore], bed: { pit_dry_RH: 70 } });
    expect(await itemOf(pit, 'pit-dry')).toMatchObject({
      ...{ state: 'not met', measure: '75.0 %RH (k01)' },
      limits: [{ value: 70, source: 'set here; the default is 90' }],
    });
  });

  test('does not know what fewer than 18 hours of a day were measured for', async () => {
    const { itemOf } = await open({
      messages: [
        toldBy('k01', { humidity: daily(75, 1), from_h: 40 }),
        toldBy('k02', { temperature: () => -127 }),
      ],
    });
    expect(await itemOf(pit, 'pit-dry')).toMatchObject({
      state: 'unknown',
      measure: expect.stringContaining('fewer than 18 hours'),
    });
    expect(await itemOf(box, 'sand-temperature')).toMatchObject({ state: 'unknown' });
  });

  test('takes a probe that lies in sand already as one, and all of them once the pit is filled', async () => {
    const { post, itemOf } = await open();
    await post(pit, { ...BODY, answers: { probesInSand: ['k01'] } });
    expect(await itemOf(pit, 'sand-humidity')).toMatchObject({ state: 'met' });
    expect(await itemOf(pit, 'pit-dry')).toBeUndefined();
    const filled = await open({ filled: formatTime(BENCH_AT - DAY_ms) });
    expect(await filled.itemOf(pit, 'sand-humidity')).toMatchObject({ state: 'met' });
  });
});

describe('POST readiness', () => {
  test('keeps the answers with the list as it stood, and GET shows them', async () => {
    const { post, get, rows } = await open();
    const answer = await post(pit, BODY);
    expect(answer.statusCode).toBe(201);
    const kept = answer.json();
    expect(kept).toMatchObject({
      ...{ bed: 'pit-k', by: 'A. Keeper', at: AT, verdict: 'not ready', notMet: ['probes-calibrated'] },
      ...{ overrides: [], answers: { nextLook: NEXT, sieving: GOOD_SAND } },
    });
    const now = (await get(pit)).json();
    expect(now).toMatchObject({ record: kept, answers: kept.answers, notMet: ['probes-calibrated'] });
    expect((await get(`${pit}/records`)).json()).toEqual([kept]);
    expect(rows('readiness')).toBe(1);
  });

  test('with an id of its own are kept once however often they are sent, and are never others', async () => {
    const { post, rows } = await open();
    const sent = { ...BODY, id: '0B3E4C1A-5D57-4F5C-9D3E-4C1A5D574F5C' };
    const first = (await post(pit, sent)).json();
    expect(first.id).toBe(sent.id.toLowerCase());
    await post(pit, { ...BODY, answers: { roofOver: false } });
    const again = await post(pit, sent);
    expect([again.statusCode, again.json()]).toEqual([201, first]);
    for (const [url, other] of [
      [pit, { by: 'Another' }],
      [pit, { answers: { ...BODY.answers, roofOver: false } }],
      [box, {}],
    ] as const)
      expect(problemOfAnswer(await post(url, { ...sent, ...other }), 409).detail).toMatch(
        /^id: expected a new UUID/,
      );
    expect(rows('readiness')).toBe(2);
    expect(placesOf(problemOfAnswer(await post(pit, { ...BODY, id: 'x' }), 400))).toEqual(['#/id']);
  });

  test('later answers stand beside earlier ones, and take the place of the same ones', async () => {
    const { post, get } = await open();
    const first = {
      ...BODY,
      at: formatTime(BENCH_AT - HOUR_ms),
      answers: { roofOver: false, ditchDug: true },
    };
    const before = (await post(pit, first)).json();
    await post(pit, { ...BODY, answers: { roofOver: true } });
    expect((await get(pit)).json().answers).toEqual({ roofOver: true, ditchDug: true });
    const records = (await get(`${pit}/records`)).json();
    expect(records).toHaveLength(2);
    expect(records[1]).toEqual(before);
  });

  test('takes what was sieved and weighed for the bed since', async () => {
    const { post, itemOf } = await open();
    await post(pit, { ...BODY, at: formatTime(BENCH_AT - HOUR_ms) });
    const wet = { wet_g: 850, dry_g: 800, container_g: 300, resolution_g: 0.1, way: 'oven' };
    await post('/api/beds/pit-k/sand', { weighing: wet, by: 'A. Technician' });
    expect(await itemOf(pit, 'sand-moisture')).toMatchObject({ state: 'not met' });
    expect(await itemOf(pit, 'sand-grains')).toMatchObject({ state: 'met' });
  });

  test('what was answered before the last filling counts no more', async () => {
    const { post, get } = await open({ filled: formatTime(BENCH_AT - HOUR_ms) });
    await post(pit, { ...BODY, at: formatTime(BENCH_AT - DAY_ms) });
    expect((await get(pit)).json()).toMatchObject({ answers: {}, record: null });
    expect((await get(`${pit}/records`)).json()).toHaveLength(1);
  });
});

describe('an override', () => {
  const OVERRIDE = { by: 'A. Owner', at: formatTime(BENCH_AT + MINUTE_ms), reason: 'Rain comes tonight.' };

  test('stays beside the record with what it was given against; the verdict stays', async () => {
    const { post, get } = await open();
    const { id, ...kept } = (await post(pit, BODY)).json();
    const answer = await post(`${pit}/${id}/override`, OVERRIDE);
    expect(answer.statusCode).toBe(201);
    const { overrides, sentence, ...rest } = answer.json();
    expect(overrides).toEqual([{ ...OVERRIDE, verdict: 'not ready', points: ['probes-calibrated'] }]);
    expect(sentence).toContain('A. Owner has it filled all the same');
    expect(rest).toEqual({ id, ...kept, overrides: undefined, sentence: undefined });
    await post(`${pit}/${id}/override`, { ...OVERRIDE, by: 'Another' });
    expect((await get(pit)).json().record.overrides).toHaveLength(2);
  });

  test.each<[string, object, number]>([
    ['a reason of nine characters', { reason: 'Rain come' }, 400],
    ['a reason of 501', { reason: 'x'.repeat(501) }, 400],
    ['nobody', { by: '' }, 400],
    ['no time', { at: undefined }, 400],
    ['a time before the judgement', { at: formatTime(BENCH_AT - HOUR_ms) }, 422],
    ['a time to come', { at: formatTime(BENCH_AT + HOUR_ms) }, 409],
  ])('with %s is refused', async (__, part, status) => {
    const { post, rows } = await open();
    const { id } = (await post(pit, BODY)).json();
    problemOfAnswer(await post(`${pit}/${id}/override`, { ...OVERRIDE, ...part }), status);
    expect(rows('readiness_override')).toBe(0);
  });

  test('of another bed, of no record, or of a bed that is ready is refused', async () => {
    const { post, rows, database } = await open();
    const { id } = (await post(pit, BODY)).json();
    problemOfAnswer(await post(`${box}/${id}/override`, OVERRIDE), 404);
    problemOfAnswer(await post(`${pit}/none/override`, OVERRIDE), 404);
    database.exec(
      `UPDATE readiness SET document = replace(document, '"verdict":"not ready"', '"verdict":"ready"')`,
    );
    problemOfAnswer(await post(`${pit}/${id}/override`, OVERRIDE), 409);
    expect(rows('readiness_override')).toBe(0);
  });
});

describe('readiness is refused', () => {
  test.each<[string, object, number, string[]]>([
    [pit, { ...BODY, by: '' }, 400, ['#/by']],
    [pit, { by: 'A. Keeper', answers: {} }, 400, ['#/at']],
    [pit, { ...BODY, answers: { roofOver: 'yes' } }, 400, ['#/answers/roofOver']],
    [pit, { ...BODY, answers: { weather: true } }, 400, ['#/answers/weather']],
    [pit, { ...BODY, override: 'go' }, 400, ['#/override']],
    [pit, { ...BODY, at: formatTime(BENCH_AT + HOUR_ms) }, 409, []],
    [pit, { ...BODY, answers: { weighing: { ...weighing, dry_g: 900 } } }, 422, []],
    ['/api/beds/pit-z/readiness', BODY, 404, []],
  ])('%s %j with %i', async (url, body, status, places) => {
    const { post, rows } = await open();
    expect(placesOf(problemOfAnswer(await post(url, body), status))).toEqual(places);
    expect(rows('readiness')).toBe(0);
  });

  test('for a bed that is not known', async () => {
    const { get } = await open();
    problemOfAnswer(await get('/api/beds/pit-z/readiness'), 404);
    problemOfAnswer(await get('/api/beds/pit-z/readiness/records'), 404);
  });
});
