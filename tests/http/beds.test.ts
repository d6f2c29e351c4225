import { describe, expect, test } from 'vitest';
import { appOver, placesOf, problemOfAnswer } from './answers.js';
import { alarm, PortsInMemory, probe } from './ports.js';

describe('GET /api/beds', () => {
  test('gives every bed, its probes, their latest readings and how it stands', async () => {
    const app = await appOver();
    const beds = (await app.inject('/api/beds')).json();
    expect(beds.map(({ id }: { id: string }) => id)).toEqual(['pit-a', 'box-b']);
    expect(beds[0]).toEqual({
      id: 'pit-a',
      site: 'ridge-station',
      timezone: 'Africa/Lusaka',
      name: 'Pit A',
      kind: 'stepped-pit',
      steps: [
        { length: 150, width: 100, height: 25, x: 0, y: 0 },
        { length: 150, width: 60, height: 25, x: 0, y: 20 },
      ],
      filled: '2026-05-04T08:00:00Z',
      roots: { count: 400, mass_kg: 110 },
      keeper: 'keeper-1',
      stands: 'unpack',
      standsSince: '2026-06-01T11:30:00Z',
      rotLeft: null,
      rootsLeft: 380,
      basis: 'shade probe and neighbours',
      judgedTo: '2026-06-01T10:00:00Z',
      openAlarms: [expect.objectContaining({ id: 'alarm-1', raisedAt: '2026-06-01T11:30:00Z' })],
      latestInspection: null,
      probes: [
        {
          id: 'p01',
          model: null,
          x: 75,
          y: 40,
          depth: 30,
          online: true,
          latest: { at: '2026-06-01T10:30:00Z', temperature_C: 21.25, humidity_RH: 88 },
          expected_C: 19.5,
          band_C: 0.6,
          excess_C: 1.75,
        },
        expect.objectContaining({ id: 'p02' }),
      ],
      formerProbes: [{ id: 'p05', x: 75, y: 40, depth: 10, until: '2026-06-01T10:30:00Z' }],
      shade: ['p09'],
    });
  });

  test('what is not known is null, not left out and not 0', async () => {
    const app = await appOver();
    expect((await app.inject('/api/beds/box-b')).json()).toMatchObject({
      filled: null,
      roots: null,
      keeper: null,
      standsSince: null,
      rootsLeft: null,
      judgedTo: null,
      latestInspection: null,
      probes: [],
      shade: [],
    });
  });

  test('a probe that has measured nothing has no latest reading; keys of the inside stay inside', async () => {
    const ports = new PortsInMemory();
    const view = ports.bed('pit-a');
    const inside = { ...probe('p03', null), secret: 1 };
    const app = await appOver(
      Object.assign(ports, { bed: () => ({ ...view, probes: [inside], openAlarms: [alarm(1)] }) }),
    );
    const [answer] = (await app.inject('/api/beds/pit-a')).json().probes;
    expect(answer.latest).toBeNull();
    expect(answer).not.toHaveProperty('secret');
  });
});

describe('GET /api/beds/{bed} refuses', () => {
  test('a bed that is not known, by name', async () => {
    const app = await appOver();
    const problem = problemOfAnswer(await app.inject('/api/beds/pit-z'), 404);
    expect(problem.detail).toContain('"pit-z"');
  });

  test.each([
    '',
    '.',
    'PIT-A',
    '-pit',
    'pit_a',
    'pit a',
    'p'.repeat(33),
    '__proto__',
    'pit-a%00',
    '..%2Fpit-a',
  ])('%j, which is no id', async (id) => {
    const app = await appOver();
    const problem = problemOfAnswer(await app.inject(`/api/beds/${id.replace(' ', '%20')}`), 400);
    expect(placesOf(problem)).toEqual(['bed']);
  });
});
