/** What needs a person today, over a real station: alarms as the watch would find them, a clock that a test moves. */
import { describe, expect, test } from 'vitest';
import { DAY_ms, HOUR_ms } from '../../services/core/model/time.js';
import { aBed, clock, openDuty, SITE } from '../support/duty.js';
import { type LedgerApp, ledgerApp, ledgerSite, look } from '../support/ledger.js';
import { placesOf, problemOfAnswer } from './answers.js';
import { appOnStation } from './app-on-station.js';

interface Item {
  readonly when: string;
  readonly kind: string;
  readonly text: string;
  readonly language: string;
  readonly [name: string]: unknown;
}

async function onDuty(site: unknown = SITE) {
  const duty = openDuty(site);
  const { get } = await appOnStation(duty, { now: duty.now, startedAt: clock('08:00') });
  const items = async (query = ''): Promise<Item[]> => (await get(`/api/today${query}`)).json().items;
  return { ...duty, get, items };
}

/** Without what is said of the service: no probe of these tests speaks. */
const ofBeds = async ({ get }: LedgerApp): Promise<Item[]> =>
  (await get('/api/today')).json().items.filter(({ kind }: Item) => kind !== 'service');

/** Beds of which nothing is asked for but what a test raises. */
const QUIET = { ...SITE, beds: ['pit-a', 'pit-b', 'pit-c'].map((id) => aBed(id, { filled: undefined })) };

describe('what needs a person', () => {
  test('comes in order: today, the next visit, the probe; what nobody has in hand first', async () => {
    const { raise, items, views } = await onDuty(QUIET);
    raise('pit-a', { kind: 'probe-silent', action: 'service', priority: 'low', subject: 'p01' });
    raise('pit-b', { kind: 'damp', action: 'check', priority: 'medium' });
    const a = raise('pit-a');
    raise('pit-c', { kind: 'wetting' });
    views.acknowledge(a, { by: 'Ana', note: 'on my way' });
    const list = await items();
    expect(list.map(({ when, bed }) => [when, (bed as { id: string }).id])).toEqual([
      ['today', 'pit-c'],
      ['today', 'pit-a'],
      ['next-visit', 'pit-b'],
      ['probe', 'pit-a'],
    ]);
    expect(list[1]).toEqual({
      ...{ when: 'today', kind: 'alarm', action: 'unpack', alarm: a, probe: null, site: 'ridge' },
      ...{ bed: { id: 'pit-a', name: 'Pit A' }, since: '2026-06-01T08:00:00Z', language: 'en' },
      isOverdueLook: false,
      inHand: { how: 'seen', by: 'Ana', at: '2026-06-01T08:00:00Z', until: null },
      text: 'Pit A: sand too warm. Open and unpack today.',
    });
    expect(list[3]).toMatchObject({ probe: 'p01', inHand: null });
  });

  test('what is put off says by whom and until when, and is back once that is over', async () => {
    const { raise, items, views, pass } = await onDuty(QUIET);
    views.shelve(raise('pit-a'), { by: 'Ben', hours: 6 });
    const until = '2026-06-01T14:00:00Z';
    expect((await items())[0]?.['inHand']).toMatchObject({ how: 'put-off', by: 'Ben', until });
    pass(6 * 60 + 1);
    expect((await items())[0]?.['inHand']).toBeNull();
  });

  test('what is over, or asks for nothing, is not in it', async () => {
    const { raise, clear, items } = await onDuty(QUIET);
    raise('pit-a');
    raise('pit-b', { kind: 'heating', action: 'none', priority: 'low' });
    expect(await items()).toHaveLength(1);
    clear('pit-a');
    expect(await items()).toEqual([]);
  });

  test('a look that is due is asked for once: by rule, or by what its alarm says', async () => {
    const { raise, clear, items } = await onDuty();
    const looks = async () => (await items()).filter(({ bed }) => (bed as { id: string }).id === 'pit-a');
    expect(await looks()).toMatchObject([
      {
        ...{ when: 'next-visit', kind: 'look', alarm: null, since: '2026-05-18T08:00:00Z' },
        text: expect.stringMatching(/^Pit A: time for the two-weekly look\./),
      },
    ]);
    raise('pit-a', { kind: 'inspection-due', action: 'check', priority: 'low' });
    expect(await looks()).toMatchObject([{ kind: 'alarm' }]);
    clear('pit-a', { kind: 'inspection-due', action: 'check' });
    raise('pit-a');
    expect(await looks()).toMatchObject([{ kind: 'alarm', action: 'unpack' }]);
  });

  test('a look by another rule does not call itself two-weekly', async () => {
    const beds = [aBed('pit-a', { thresholds: { inspect_every_days: 7 } })];
    const [item] = await (await onDuty({ ...SITE, beds })).items();
    expect(item).toMatchObject({ since: '2026-05-11T08:00:00Z' });
    expect(item?.text).toMatch(/^Pit A: time to look inside\./);
  });
});

describe('in languages', () => {
  test.each(['fr', 'pt', 'sw', 'ha', 'ny', 'am'])('%s says alarms and looks, and what it is', async (tag) => {
    const { raise, items, get } = await onDuty();
    raise('pit-b');
    expect((await get(`/api/today?language=${tag}`)).json()).toMatchObject({
      ...{ language: tag, nativeReviewed: false },
    });
    const english = await items();
    for (const [at, item] of (await items(`?language=${tag}`)).entries()) {
      expect(item.language).toBe(tag);
      expect(item.text).not.toBe(english[at]?.text);
      expect(item.text).toContain('Pit');
    }
  });

  test('what a language has no words for is said in English, and says so', async () => {
    const app = await ledgerApp({ site: ledgerSite() });
    const topic = 'sandlarder/v1/test-ridge/probes/p77/readings';
    app.commit([{ topic, payload: '[{"n":"temperature","u":"Cel","v":21,"t":1779000000}]' }]);
    expect((await app.get('/api/today?language=sw')).json()).toMatchObject({
      language: 'sw',
      items: [
        { kind: 'service', language: 'en' },
        { kind: 'unknown-probe', probe: 'p77', language: 'en', since: '2026-05-17T06:40:00Z' },
      ],
    });
  });

  test.each(['language=de', 'language=', 'language=EN', 'language=en&language=fr', 'lang=en'])(
    '?%s is refused with what there is',
    async (query) => {
      const { get } = await onDuty();
      const problem = problemOfAnswer(await get(`/api/today?${query}`), 400);
      expect(placesOf(problem)).toEqual([query.startsWith('lang=') ? 'lang' : 'language']);
      if (query === 'language=de') expect(problem.detail).toContain('expected "en" or "fr"');
    },
  );
});

describe('before a bed is filled', () => {
  const answers = { at: '2026-05-05T08:00:00Z', by: 'Wanja', answers: { roofOver: false } };

  test('what is not met is counted, and who has it filled all the same is asked to write it down', async () => {
    const app = await ledgerApp();
    const kept = (await app.post('/api/beds/pit-t/readiness', answers)).json();
    const first = async () => (await ofBeds(app))[0];
    expect(await first()).toMatchObject({ kind: 'readiness', when: 'next-visit', since: answers.at });
    expect((await first())?.text).toMatch(/^Pit T: not ready to be filled: \d+ points? (is|are) not met/);
    const override = { at: answers.at, by: 'Owner', reason: 'Rain is coming tonight' };
    const answer = await app.post(`/api/beds/pit-t/readiness/${kept.id}/override`, override);
    expect(answer.statusCode).toBe(201);
    expect(await first()).toMatchObject({
      ...{ kind: 'fill', text: expect.stringContaining('Write down what went in') },
    });
  });

  test('nothing is asked once it is filled', async () => {
    const app = await ledgerApp({ site: ledgerSite({ filled: '2026-05-04T12:00:00Z' }) });
    await app.post('/api/beds/pit-t/readiness', { ...answers, at: '2026-05-04T08:00:00Z' });
    app.goTo(2);
    expect(await ofBeds(app)).toEqual([]);
  });
});

describe('the service and its probes', () => {
  test('what is wrong with the service comes before what waits for a visit', async () => {
    const { raise, items, pass } = await onDuty(QUIET);
    raise('pit-a', { kind: 'damp', action: 'check', priority: 'medium' });
    raise('pit-b');
    pass(4 * 60);
    const withProbe = { ...QUIET, probes: [{ id: 'p01', placements: [] }] };
    expect((await items()).map(({ kind }) => kind)).toEqual(['alarm', 'alarm']);
    const other = await onDuty(withProbe);
    other.raise('pit-a', { kind: 'damp', action: 'check', priority: 'medium' });
    other.raise('pit-b');
    other.pass(6 * 60);
    const list = await other.items();
    expect(list.map(({ when }) => when)).toEqual(['today', 'service', 'next-visit']);
    expect(list[1]?.text).toMatch(/^The service itself: no message from any probe for \d+ hours/);
  });
});

test('how long a bed stands as it does, and what is left in it', async () => {
  const { raise, clear, pass, get, now } = await onDuty();
  const bed = async () => (await get('/api/beds/pit-a')).json();
  expect(await bed()).toMatchObject({ standsSince: '2026-05-04T08:00:00Z', rootsLeft: null });
  const raisedAt = now();
  raise('pit-a');
  pass(60);
  raise('pit-a', { kind: 'wetting' });
  expect(await bed()).toMatchObject({
    stands: 'unpack',
    standsSince: new Date(raisedAt).toISOString().replace('.000', ''),
  });
  clear('pit-a');
  clear('pit-a', { kind: 'wetting' }, now() + HOUR_ms);
  const text = (time: number): string => new Date(time).toISOString().replace('.000', '');
  const over = text(now() + HOUR_ms);
  expect(await bed()).toMatchObject({ standsSince: text(now()) });
  pass(60);
  expect(await bed()).toMatchObject({ standsSince: over });
});

test('a bed that was looked into is not asked for again before its time', async () => {
  const app = await ledgerApp({ site: ledgerSite({ filled: '2026-05-04T08:00:00Z' }) });
  app.goTo(15);
  expect(await ofBeds(app)).toMatchObject([{ kind: 'look' }]);
  await app.post(
    '/api/beds/pit-t/inspections',
    look(1, { at: new Date(Date.UTC(2026, 4, 4, 8) + 14.5 * DAY_ms).toISOString() }),
  );
  expect(await ofBeds(app)).toEqual([]);
});
