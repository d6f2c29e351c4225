import { describe, expect, onTestFinished, test } from 'vitest';
import { buildCentreApp, type CentreHealth, type CentrePorts } from '../../services/http/index.js';

const HEALTH: CentreHealth = {
  ...{ status: 'ok', problems: [], accepting: true, version: '0.1.0', group: 'north', partitions: 2 },
  worker: 'w1',
  workers: [
    { name: 'w1', url: 'http://127.0.0.1:8080', held: [{ partition: 'p000', url: 'http://127.0.0.1:8101' }] },
  ],
};

async function asked(path: string, ports: Partial<CentrePorts> = {}, headers = {}) {
  const app = await buildCentreApp(
    {
      health: () => HEALTH,
      placeOf: (site) => ({ site, partition: 'p000', url: 'http://127.0.0.1:8101' }),
      ...ports,
    },
    { mayListenWider: false, report: () => undefined },
  );
  onTestFinished(() => app.close());
  return app.inject({ url: path, headers });
}

test('health says who holds what, and 503 while readings are not taken in', async () => {
  const well = await asked('/api/health');
  expect([well.statusCode, well.json()]).toEqual([200, HEALTH]);
  const ill = await asked('/api/health', { health: () => ({ ...HEALTH, accepting: false }) });
  expect(ill.statusCode).toBe(503);
});

test('a site is found, and led to', async () => {
  const place = { site: 'ridge-station', partition: 'p000', url: 'http://127.0.0.1:8101' };
  expect((await asked('/api/sites/ridge-station')).json()).toEqual(place);
  const led = await asked('/sites/ridge-station');
  expect([led.statusCode, led.headers.location]).toEqual([307, 'http://127.0.0.1:8101/']);
});

test('what listens everywhere is led to under the name that was asked', async () => {
  const placeOf = (site: string) => ({ site, partition: 'p000', url: 'http://0.0.0.0:8101' });
  const led = await asked('/sites/ridge-station', { placeOf }, { host: 'centre.example:8080' });
  expect(led.headers.location).toBe('http://centre.example:8101/');
});

describe('refused', () => {
  test('a site while nobody holds its partition: it is to be asked again', async () => {
    const placeOf = (site: string) => ({ site, partition: 'p001', url: null });
    const answer = await asked('/sites/ridge-station', { placeOf });
    expect([answer.statusCode, answer.json().detail]).toEqual([
      503,
      'partition p001 is held by no worker just now: ask again in some seconds',
    ]);
    expect((await asked('/api/sites/ridge-station', { placeOf })).json()).toMatchObject({ url: null });
  });

  test.each(['/sites/Ridge', '/api/sites/-x', `/sites/${'x'.repeat(33)}`])('%s is no id', async (path) => {
    expect((await asked(path)).statusCode).toBe(400);
  });

  test.each(['/api/beds', '/sites', '/api/sites/'])('%s is another service’s', async (path) => {
    expect((await asked(path)).statusCode).toBe(path === '/api/sites/' ? 400 : 404);
  });
});
