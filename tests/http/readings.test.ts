import { describe, expect, test } from 'vitest';
import { formatTime } from '../../services/core/model/time.js';
import { appOver, placesOf, problemOfAnswer } from './answers.js';
import { HEALTH, NEWEST_ms, PortsInMemory, probe } from './ports.js';

const readings = '/api/beds/pit-a/readings';
const ask = async (url: string, ports = new PortsInMemory()) => {
  const answer = await (await appOver(ports)).inject(url);
  const [asked] = ports.asked;
  return { answer, asked: asked && { ...asked, from: formatTime(asked.from), to: formatTime(asked.to) } };
};

describe('readings', () => {
  test('come as columns by probe, with times as text and gaps as null', async () => {
    const { answer } = await ask(`${readings}?from=2026-05-30T00:00:00Z&to=2026-05-31T00:00:00Z`);
    expect(answer.json()).toEqual({
      bed: 'pit-a',
      from: '2026-05-30T00:00:00Z',
      to: '2026-05-31T00:00:00Z',
      probes: ['p01', 'p02'].map((id) => ({
        probe: id,
        x: 75,
        y: 40,
        depth: 30,
        time: ['2026-05-30T00:00:00Z', '2026-05-30T00:00:01.500Z'],
        temperature_C: [21.25, null],
        temperatureUncertainty_C: [0.12, null],
        temperatureDoubt: ['outside', null],
        humidity_RH: [null, 88],
        humidityUncertainty_RH: [null, null],
        humidityDoubt: [null, null],
        expected_C: [19.5, null],
        band_C: [0.6, null],
        flagged:
          id === 'p02'
            ? [{ at: '2026-05-30T00:00:00Z', quantity: 'temperature', reason: 'sensor-code', value: 85 }]
            : [],
        hours: { time: ['2026-05-30T00:00:00Z'], expected_C: [19.5], band_C: [0.6], excess_C: [1.75] },
        thinned: true,
        readFrom: ['hours', 'full-rate'],
      })),
      shade: [],
      note: null,
    });
  });

  test('are of the seven days to the end of the newest hour where nothing is said', async () => {
    expect((await ask(readings)).asked).toEqual({
      from: '2026-05-25T11:00:00Z',
      to: '2026-06-01T11:00:00Z',
      points: 600,
    });
  });

  test('of a bed without any are asked for by the newest of the site, else by the start', async () => {
    const never = new PortsInMemory({ health: { ...HEALTH, newestReadingAt: null } });
    expect((await ask('/api/beds/box-b/readings')).asked?.to).toBe('2026-06-01T12:00:00Z');
    expect((await ask('/api/beds/box-b/readings', never)).asked?.to).toBe('2026-05-04T09:00:00Z');
  });

  test.each([
    ['from=2026-05-30T02:00:00%2B02:00', '2026-05-30T00:00:00Z', '2026-06-01T11:00:00Z'],
    ['to=2026-05-30T00:00:00Z', '2026-05-23T00:00:00Z', '2026-05-30T00:00:00Z'],
    ['to=2000-01-02T00:00:00Z', '2000-01-01T00:00:00Z', '2000-01-02T00:00:00Z'],
    ['from=2025-04-27T11:00:00Z', '2025-04-27T11:00:00Z', '2026-06-01T11:00:00Z'],
  ])('%s fills in the other end', async (query, from, to) => {
    expect((await ask(`${readings}?${query}`)).asked).toEqual({ from, to, points: 600 });
  });

  test('from a time after the newest are none', async () => {
    const { answer, asked } = await ask(`${readings}?from=2027-01-01T00:00:00Z`);
    expect(answer.statusCode).toBe(200);
    expect(asked).toMatchObject({ from: '2027-01-01T00:00:00Z', to: '2027-01-01T00:00:00.001Z' });
  });

  test.each([10, 5000])('take %i points, at the edge', async (points) => {
    expect((await ask(`${readings}?points=${points}`)).asked?.points).toBe(points);
  });
});

describe('readings are refused', () => {
  test.each([
    ['from=yesterday', ['from']],
    ['from=', ['from']],
    ['from=2026-05-30', ['from']],
    ['from=2026-05-30T00:00:00', ['from']],
    ['from=1780000000000', ['from']],
    ['to=1999-12-31T23:59:59Z', ['to']],
    ['to=2100-01-01T00:00:00Z', ['to']],
    ['from=2026-05-30T00:00:00Z&from=2026-05-31T00:00:00Z', ['from']],
    ['points=9', ['points']],
    ['points=5001', ['points']],
    ['points=0', ['points']],
    ['points=-600', ['points']],
    ['points=600.5', ['points']],
    ['points=6e2', ['points']],
    ['points=0x64', ['points']],
    ['points=', ['points']],
    ['points=%20600', ['points']],
    ['points=NaN', ['points']],
    ['points=99999999999999999999', ['points']],
    ['points=600&points=600', ['points']],
    ['point=600', ['point']],
    ['__proto__=1', ['__proto__']],
    ['probes=', ['probes/0']],
    ['probes=P01', ['probes/0']],
    ['probes=p01,', ['probes/1']],
    ['probes=p01,p01', ['probes']],
    ['probes=p01&probes=p02', ['probes']],
    ['shade=yes', ['shade']],
    ['shade=', ['shade']],
    ['from=x&to=y&points=z', ['from', 'to', 'points']],
  ])('for %s, by name', async (query, places) => {
    const { answer, asked } = await ask(`${readings}?${query}`);
    expect(placesOf(problemOfAnswer(answer, 400)).sort()).toEqual([...places].sort());
    expect(asked).toBeUndefined();
  });

  test.each([
    ['an end before the start', 'from=2026-05-31T00:00:00Z&to=2026-05-30T00:00:00Z', 'BAD_REQUEST'],
    ['no span at all', 'from=2026-05-31T00:00:00Z&to=2026-05-31T00:00:00Z', 'BAD_REQUEST'],
    ['a span over 400 days', 'from=2025-01-01T00:00:00Z&to=2026-02-05T00:00:00.001Z', 'LIMIT_EXCEEDED'],
    ['a start too long before the newest', 'from=2020-01-01T00:00:00Z', 'LIMIT_EXCEEDED'],
  ])('for %s', async (_what, query, code) => {
    const { answer, asked } = await ask(`${readings}?${query}`);
    expect(problemOfAnswer(answer, 400).code).toBe(code);
    expect(asked).toBeUndefined();
  });

  test('but 400 days to the millisecond are answered', async () => {
    const { answer } = await ask(`${readings}?from=2025-01-01T00:00:00Z&to=2026-02-05T00:00:00Z`);
    expect(answer.statusCode).toBe(200);
  });

  test('for more points of all probes together than one answer holds', async () => {
    const ports = new PortsInMemory();
    // Sixty with the one that stood there before.
    const probes = Array.from({ length: 59 }, (_, index) => probe(`p${index}`, NEWEST_ms));
    const view = { ...ports.bed('pit-a'), probes };
    const many = Object.assign(ports, { bed: () => view });
    const app = await appOver(many);
    const problem = problemOfAnswer(await app.inject(`${readings}?points=5000`), 400);
    expect(problem).toMatchObject({
      code: 'LIMIT_EXCEEDED',
      detail: expect.stringContaining('at most 500 for the 60 probes '),
    });
    expect((await app.inject(`${readings}?points=500`)).statusCode).toBe(200);
    expect((await app.inject(readings)).statusCode).toBe(200);
    expect(ports.asked.map(({ points }) => points)).toEqual([500, 500]);
  });

  test('for a bed that is not known', async () => {
    problemOfAnswer((await ask('/api/beds/pit-z/readings')).answer, 404);
  });
});
