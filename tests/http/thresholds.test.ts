/** Thresholds, access and ways over the HTTP edge. */
import { describe, expect, test } from 'vitest';
import { KEEPING_THRESHOLDS } from '../../services/core/model/keeping-threshold.js';
import { TELLING } from '../../services/core/model/telling-defaults.js';
import { THRESHOLDS } from '../../services/core/model/threshold.js';
import type { ThresholdSetting } from '../../services/core/model/threshold-settings.js';
import { accessOf } from '../../services/joining/access.js';
import { ALONE } from '../support/ports-on-station.js';
import { SITE, siteApp } from './a-site.js';
import { problemOfAnswer } from './answers.js';
import { peopleApp } from './people-app.js';

const BED = '/api/beds/pit-t/thresholds';

describe('thresholds', () => {
  test('of all kinds are told with what they do and where the default comes from', async () => {
    const { get } = await siteApp();
    const all = (await get('/api/thresholds')).json() as ThresholdSetting[];
    expect(new Set(all.map(({ name }) => name))).toEqual(
      new Set([...Object.keys({ ...THRESHOLDS, ...KEEPING_THRESHOLDS, ...TELLING }), 'morning']),
    );
    for (const one of all) {
      expect(one.setAt).toBe('default');
      expect(one.value).toBe(one.default);
      expect(one.source).toMatch(/^(judgement|common practice, no source|from memory|published)/);
      expect(one.meaning.length).toBeGreaterThan(5);
    }
    const ofBed = (await get(BED)).json() as ThresholdSetting[];
    expect(ofBed.map(({ name }) => name)).toEqual(
      all.filter(({ group }) => group !== 'telling').map(({ name }) => name),
    );
  });

  test('in force are those of the bed, else of the site, else the default', async () => {
    const { alter, get } = await siteApp();
    const named = async (url: string, name: string) =>
      ((await get(url)).json() as ThresholdSetting[]).find((one) => one.name === name);
    await alter('site', 'particulars', { thresholds: { damp_check_RH: 93 } });
    expect(await named(`${SITE}/thresholds`, 'damp_check_RH')).toMatchObject({
      ...{ value: 93, setAt: 'site', default: 95, otherwise: 95, path: ['thresholds', 'damp_check_RH'] },
    });
    expect(await named(BED, 'damp_check_RH')).toMatchObject({ value: 93, setAt: 'site', otherwise: 93 });
    await alter('bed', 'beds/pit-t', { thresholds: { damp_check_RH: 94 } });
    expect(await named(BED, 'damp_check_RH')).toMatchObject({ value: 94, setAt: 'bed', otherwise: 93 });
    await alter('bed', 'beds/pit-t', { thresholds: {} });
    expect(await named(BED, 'damp_check_RH')).toMatchObject({ value: 93, setAt: 'site' });
  });

  test('of telling are set within the site', async () => {
    const { alter, get } = await siteApp();
    await alter('site', 'particulars', { telling: { morning: '05:45', storm: { alarms: 8 } } });
    const all = (await get(`${SITE}/thresholds`)).json() as ThresholdSetting[];
    const named = (name: string) => all.find((one) => one.name === name);
    expect(named('morning')).toMatchObject({ value: '05:45', setAt: 'site', otherwise: '06:30', low: null });
    expect(named('storm_alarms')).toMatchObject({ value: 8, path: ['telling', 'storm', 'alarms'] });
    expect(named('storm_within_min')).toMatchObject({ value: 60, setAt: 'default' });
  });

  test('of no bed are not found', async () => {
    const { get } = await siteApp();
    problemOfAnswer(await get('/api/beds/pit-z/thresholds'), 404);
    problemOfAnswer(await get('/api/beds/Pit/thresholds'), 400);
  });
});

describe('who may do what', () => {
  test('is said as the service was started, and claims no roles', async () => {
    const { get } = await siteApp();
    const access = (await get('/api/access')).json();
    expect(access.asksForCredentials).toBe(false);
    expect(access.notes[0]).toMatch(/Nobody signs in here yet/);
    expect(access.roles).toHaveLength(6);
    expect(
      access.parties.filter(({ isOpen }: { isOpen: boolean }) => isOpen).map(({ id }: { id: string }) => id),
    ).toEqual(['service', 'probes', 'machine']);
  });

  test('with credentials, links and a gateway says so', () => {
    const facts = {
      ...{ ...ALONE, httpCredentials: true, links: true, shortMessages: true, gateway: true },
      deviceSecrets: () => 2,
    };
    const parties = new Map(accessOf(facts).parties.map((party) => [party.id, party]));
    expect(parties.get('service')?.who).toMatch(/knows the user and the password/);
    expect([...parties.values()].every(({ isOpen }) => isOpen)).toBe(true);
  });

  test('ways are those that the service was started with', async () => {
    const { app } = await peopleApp();
    expect((await app.inject('/api/ways')).json()).toContainEqual({
      via: 'sms',
      usable: true,
      answers: true,
    });
    problemOfAnswer(
      await (await peopleApp({ credentials: { user: 'k', password: 'sand and roots' } })).app.inject(
        '/api/ways',
      ),
      401,
    );
  });
});
