/** One alarm opened, over a real station: its numbers, its steps, what became of it, and in which language. */
import { describe, expect, test } from 'vitest';
import { DIGGING_CAUTION, FOOD_CAUTION, LIFTING_CAUTION } from '../../services/core/alarms/cautions.js';
import type { Episode } from '../../services/core/model/alarm.js';
import { DAY_ms, formatTime, HOUR_ms } from '../../services/core/model/time.js';
import { beside } from '../support/calibrating.js';
import { clock } from '../support/duty.js';
import { day, FILLED_AT, type LedgerApp, ledgerApp, ledgerSite, look } from '../support/ledger.js';
import { placesOf, problemOfAnswer } from './answers.js';
import { peopleApp } from './people-app.js';

const ID = 'test-ridge.pit-t.heating.unpack.20260514T080000Z';
const RAISED_AT = FILLED_AT + 10 * DAY_ms;
const PLACE = { x: 80, y: 35, depth: 40, radius: 15 };
const HEATING: Episode = {
  ...{ bed: 'pit-t', kind: 'heating', action: 'unpack', priority: 'high', subject: '' },
  ...{ raisedAt: RAISED_AT, clearedAt: null, place: PLACE },
  evidence: {
    ...{ probe: 'p01', excess_C: 1.8, probes: 2, power_W: 2.4, strength: 17.5 },
    onsetAt: formatTime(RAISED_AT - 2 * DAY_ms),
  },
};
const PLACED = [{ bed: 'pit-t', x: 75, y: 50, depth: 30, from: day(-400) }];

/** Sand at 24 °C, a reading an hour for 14 days. */
function readings() {
  const records = Array.from({ length: 14 * 24 }, (_, hour) => ({
    ...{ n: 'temperature', u: 'Cel', v: 24, t: (FILLED_AT + hour * HOUR_ms) / 1000 },
  }));
  return { topic: 'sandlarder/v1/test-ridge/probes/p01/readings', payload: JSON.stringify(records) };
}

async function openedApp(bed: object = {}, episode: Partial<Episode> = {}): Promise<LedgerApp> {
  const app = await ledgerApp({ site: ledgerSite({ filled: day(0), ...bed }, PLACED) });
  app.goTo(12);
  app.commit([readings()]);
  const raised = { ...HEATING, ...episode };
  app.registry.alarms.put(ID, 'test-ridge', raised, 'Pit T: sand 1.8 C too warm. Open and unpack today.');
  return app;
}

const storyOf = async (app: LedgerApp, query = '') => (await app.get(`/api/alarms/${ID}${query}`)).json();
const item = (story: { why: { name: string }[] }, name: string) =>
  story.why.find((one) => one.name === name) as Record<string, unknown> | undefined;

describe('why', () => {
  test('every number of the evidence has its name in words, its unit and its value', async () => {
    const story = await storyOf(await openedApp());
    expect(story.why.map(({ name }: { name: string }) => name)).toEqual(Object.keys(HEATING.evidence));
    expect(item(story, 'excess_C')).toMatchObject({
      ...{ label: 'Warmer than a sound bed would be there', value: 1.8, unit: '°C', probe: 'p01' },
      ...{ quantity: 'temperature', thresholds: [], text: '1.8 °C warmer than a sound bed' },
    });
    expect(item(story, 'onsetAt')).toMatchObject({ unit: 'time', value: formatTime(RAISED_AT - 2 * DAY_ms) });
    expect(item(story, 'probe')).toMatchObject({ unit: null, value: 'p01' });
  });

  // Run length of 0.0001 alarms a month at a step of six hours: 30 x 4 / 0.0001 = 1.2e6, whose logarithm is 13.998.
  test('the threshold, by default, and the limit that it stands for', async () => {
    expect(item(await storyOf(await openedApp()), 'strength')?.['thresholds']).toEqual([
      expect.objectContaining({
        ...{ name: 'heating_unpack_per_bed_month', value: 0.0001, unit: 'alarms/bed-month' },
        ...{ setFor: 'default', limit: 14, source: expect.stringMatching(/^judgement/) },
      }),
    ]);
  });

  test('the threshold that is set for the bed', async () => {
    const app = await openedApp({ thresholds: { heating_unpack_per_bed_month: 0.001 } });
    expect(item(await storyOf(app), 'strength')?.['thresholds']).toEqual([
      expect.objectContaining({ value: 0.001, setFor: 'bed', limit: 11.7 }),
    ]);
  });

  test('a limit that the evidence names was in force, whatever is set since', async () => {
    const damp = {
      kind: 'damp',
      action: 'check',
      evidence: { probe: 'p01', humidity_RH: 93.5, held_h: 50, threshold_RH: 93 },
    } as const;
    const story = await storyOf(await openedApp({}, damp));
    expect(item(story, 'humidity_RH')?.['thresholds']).toEqual([
      expect.objectContaining({ name: 'damp_check_RH', value: 93, setFor: 'default' }),
    ]);
    expect(item(story, 'held_h')?.['thresholds']).toEqual([
      expect.objectContaining({ name: 'damp_check_h', value: 48, unit: 'h' }),
    ]);
  });

  test('the readings around it: a few of the probe, and the address of all', async () => {
    const app = await openedApp();
    const story = await storyOf(app);
    const [probe, ...others] = story.probes;
    expect(others).toEqual([]);
    expect(probe).toMatchObject({ probe: 'p01', at: { x: 75, y: 50, depth: 30 } });
    expect(probe.readings.length).toBeGreaterThan(5);
    expect(probe.readings.length).toBeLessThanOrEqual(12);
    expect(probe.readings[0]).toMatchObject({ temperature_C: 24, humidity_RH: null });
    expect(story.series).toMatchObject({
      ...{ from: formatTime(RAISED_AT - 3 * DAY_ms), to: formatTime(RAISED_AT + DAY_ms) },
    });
    const series = await app.get(story.series.href);
    expect(series.json()).toMatchObject({ from: story.series.from, probes: [{ probe: 'p01' }] });
  });

  test('the calibration that was in force then, or that there was none', async () => {
    const app = await openedApp();
    expect((await storyOf(app)).probes[0].calibrations).toEqual({ temperature: null, humidity: null });
    const body = {
      ...{ site: 'test-ridge', probe: 'p01', quantity: 'temperature', by: 'bench-hand', doneAt: day(1) },
      ...{ reference: { name: 'glass' }, points: [beside(10, 9), beside(30, 29)] },
    };
    const { id } = (await app.post('/api/calibrations', body)).json();
    const later = { ...body, doneAt: day(11), points: [beside(10, 8), beside(30, 28)] };
    expect((await app.post('/api/calibrations', later)).statusCode).toBe(201);
    const { calibrations, readings: few } = (await storyOf(app)).probes[0];
    expect(calibrations).toMatchObject({
      temperature: { id, href: `/api/calibrations/${id}`, from: day(1), uncertainty: expect.any(Number) },
      humidity: null,
    });
    expect(few[1].temperature_C).toBeCloseTo(23, 6);
    expect((await app.get(calibrations.temperature.href)).json().id).toBe(id);
  });
});

describe('what to do', () => {
  test('is in order, in the words of the place, with its cautions beside what they concern', async () => {
    const { steps, where, meaning } = await storyOf(await openedApp());
    const texts = steps.list.map(({ text }: { text: string }) => text);
    expect(texts[0]).toContain('Go to Pit T today');
    expect(texts.find((text: string) => text.startsWith('Dig here first'))).toContain(where.text);
    expect(texts.at(-1)).toContain('Write down what you found');
    const cautions = steps.list.flatMap((step: { cautions: string[] }) => step.cautions);
    expect(cautions).toEqual([DIGGING_CAUTION, LIFTING_CAUTION, FOOD_CAUTION]);
    expect(steps).toMatchObject({ language: 'en', draft: false });
    expect(meaning).toContain('Rotting roots warm the sand');
  });

  test('a probe is found where it lies, and told what to look at', async () => {
    const evidence = { probe: 'p01', fault: 'stuck', since: day(9) };
    const fault: Partial<Episode> = {
      kind: 'probe-fault',
      action: 'service',
      subject: 'p01',
      place: null,
      evidence,
    };
    const { steps, where } = await storyOf(await openedApp({}, fault));
    expect(where).toBeNull();
    expect(steps.list[0].text).toMatch(/^Find probe p01 of Pit T\. It lies deep down/);
    expect(steps.list[1].text).toContain('Look at the sensor and its cable');
    expect(JSON.stringify(steps)).toContain('unpack at once, whatever the probe says');
  });
});

describe('the language', () => {
  test.each([
    ['?language=sw', {}, 'sw', true],
    ['?language=fr-CM', {}, 'fr', true],
    ['', { 'accept-language': 'de, sw;q=0.8, en;q=0.5' }, 'sw', true],
    ['?language=en', { 'accept-language': 'sw' }, 'en', false],
    ['?language=de', { 'accept-language': 'sw' }, 'en', false],
    ['', { 'accept-language': 'sw;q=0, *' }, 'en', false],
    ['', { 'accept-language': ';;q=9,,' }, 'en', false],
  ])('%s with %j is %s', async (query, headers, language, draft) => {
    const app = await openedApp();
    const one = await app.app.inject({ url: `/api/alarms/${ID}${query}`, headers });
    expect(one.headers['vary']).toBe('Accept-Language');
    expect(one.json()).toMatchObject({ language, draft, where: { language, draft } });
    const list = (await app.app.inject({ url: `/api/alarms${query}`, headers })).json();
    expect(list).toContainEqual(expect.objectContaining({ id: ID, language, draft, text: one.json().text }));
    const beds = (await app.app.inject({ url: `/api/beds${query}`, headers })).json();
    expect(beds.find(({ id }: { id: string }) => id === 'pit-t').openAlarms).toEqual(list);
    const bed = (await app.app.inject({ url: `/api/beds/pit-t${query}`, headers })).json();
    expect(bed.openAlarms).toEqual(list);
  });

  test('the text is in its words, and in English as it was raised', async () => {
    const app = await openedApp();
    expect((await storyOf(app, '?language=sw')).text).toMatch(/^Pit T: mchanga/);
    expect((await storyOf(app)).text).toBe('Pit T: sand 1.8 C too warm. Open and unpack today.');
  });

  test.each([
    'language=',
    'language=s',
    'language=sw_TZ',
    'language=sw&language=fr',
    `language=${'a-'.repeat(30)}`,
  ])('refuses ?%s', async (query) => {
    const app = await openedApp();
    for (const path of [`/api/alarms/${ID}`, '/api/alarms', '/api/beds', '/api/beds/pit-t'])
      expect(placesOf(problemOfAnswer(await app.get(`${path}?${query}`), 400))).toEqual(['language']);
  });
});

describe('what became of it', () => {
  test('who was told when, who acknowledged and shelved it, and that it is over', async () => {
    const { duty, app, told, json } = await peopleApp();
    const { alarm } = told();
    duty.pass(5);
    await json(`/api/alarms/${alarm}/acknowledge`, { by: 'Ana', note: 'on my way' });
    await json(`/api/alarms/${alarm}/shelve`, { by: 'Ben', hours: 6 });
    duty.goTo(clock('18:00'));
    duty.clear('pit-a');
    const { history, withdrawn } = (await app.inject(`/api/alarms/${alarm}`)).json();
    expect(withdrawn).toBe(false);
    expect(history.map(({ what, by = '' }: { what: string; by?: string }) => `${what} ${by}`.trim())).toEqual(
      [...['raised', 'known', 'told Ana', 'shelved Ben', 'acknowledged Ana', 'cleared', 'ended']],
    );
    expect(history[2]).toMatchObject({
      told: { person: 'ana', via: 'sms', event: 'raised', delivered: true },
    });
    expect(history[3]).toMatchObject({ until: formatTime(clock('16:05')), clock: 'service' });
    expect(history[4]).toMatchObject({ note: 'on my way', at: formatTime(clock('10:05')) });
    expect(JSON.stringify(history)).not.toContain('+2609');
  });

  test('one that was withdrawn is told, with the one that people take for it', async () => {
    const { duty, app, told } = await peopleApp();
    const { alarm } = told();
    duty.retell('pit-a', (story) => story.map((change) => ({ ...change, at: change.at + HOUR_ms })));
    const [now] = (await app.inject('/api/alarms')).json();
    expect(now.id).not.toBe(alarm);
    const story = (await app.inject(`/api/alarms/${alarm}`)).json();
    expect(story).toMatchObject({ id: alarm, withdrawn: true, successor: now.id });
    expect(story.history.map(({ what }: { what: string }) => what)).toContain('withdrawn');
  });

  test('which inspection found it out', async () => {
    const app = await openedApp();
    const found = look(3, { at: day(11), found: ['rot'], looked: 20, rotten: 2, note: 'two at the far end' });
    const { id } = (await app.post('/api/beds/pit-t/inspections', found)).json();
    const { history, foundOut } = await storyOf(app);
    expect(foundOut).toEqual({ verdict: 'right', lookedAt: day(11) });
    expect(history).toContainEqual({
      ...{ what: 'looked', at: day(11), clock: 'event', by: 'Wanja', note: 'two at the far end' },
      looked: { inspection: id, found: ['rot'], verdict: 'right' },
    });
  });
});

describe('refused', () => {
  test.each(['none', '__proto__', 'test-ridge.pit-t.heating.unpack.20260514T080001Z'])('%s', async (id) => {
    problemOfAnswer(await (await openedApp()).get(`/api/alarms/${id}`), 404);
  });

  test('an unknown question, and an id that is longer than any', async () => {
    const app = await openedApp();
    problemOfAnswer(await app.get(`/api/alarms/${ID}?why=yes`), 400);
    problemOfAnswer(await app.get(`/api/alarms/${'a'.repeat(200)}`), 414);
  });
});
