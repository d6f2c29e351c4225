import { describe, expect, test } from 'vitest';
import { SandlarderError } from '../../services/core/errors.js';
import { appOver, placesOf, problemOfAnswer } from './answers.js';
import { PortsInMemory } from './ports.js';

const STEPS = [
  { length: 150, width: 60, height: 25 },
  { length: 100, width: 60, height: 25 },
  { length: 50, width: 60, height: 25 },
];
const PIT = { steps: STEPS, probes: 0 };

async function ask(body: object, { url = '/api/plan', headers = {}, ports = new PortsInMemory() } = {}) {
  const app = await appOver(ports);
  return { answer: await app.inject({ method: 'POST', url, payload: body, headers }), asked: ports.plans };
}

describe('POST /api/plan', () => {
  test('gives what the command gives, with all its figures', async () => {
    const { answer } = await ask(PIT);
    expect(answer.statusCode).toBe(200);
    const plan = answer.json();
    expect(plan).toMatchObject({
      ...{ kind: 'stepped-pit', fits: true, roots: 316, buckets: 37, digging_L: 450, probes: [] },
      volume_L: { steps: [225, 150, 75], total: 450 },
    });
    expect(plan.roof).toMatchObject({ side_poles: 6 });
    expect(plan.dug_out_L).toEqual({ low: expect.any(Number), high: expect.any(Number) });
    expect(plan.cautions.join(' ')).toContain('cave in');
  });

  test('of roots proposes a bed, and says the nearest that fits', async () => {
    expect((await ask({ roots: 400, probes: 0 })).answer.json()).toMatchObject({
      proposed: true,
      fits: true,
    });
    expect((await ask({ ...PIT, roots: 400 })).answer.json()).toMatchObject({
      fits: false,
      nearest: { beds: 1, most_roots: expect.any(Number) },
    });
    expect((await ask({ kind: 'box', roots_kg: 60, root_kg: 0.2, probes: 0 })).answer.json()).toMatchObject({
      kind: 'box',
      asked_roots: 300,
    });
  });

  test.each([
    [{ headers: { accept: 'image/svg+xml' } }],
    [{ headers: { accept: 'image/svg+xml;q=0.9' } }],
    [{ url: '/api/plan?as=svg' }],
    [{ url: '/api/plan?as=svg', headers: { accept: 'application/json' } }],
  ])('draws it for %j', async (how) => {
    const { answer } = await ask(PIT, how);
    expect(answer.headers['content-type']).toBe('image/svg+xml; charset=utf-8');
    expect(answer.body).toMatch(/^<svg [\s\S]*<\/svg>\n$/);
  });

  test.each([
    [{ headers: { accept: '*/*' } }],
    [{ headers: { accept: 'text/html, image/svg+xml' } }],
    [{ url: '/api/plan?as=json', headers: { accept: 'image/svg+xml' } }],
  ])('gives figures for %j', async (how) => {
    expect((await ask(PIT, how)).answer.headers['content-type']).toMatch(/^application\/json/);
  });

  test('takes measures of the user, and fills in those that are not said', async () => {
    const { answer, asked } = await ask({ ...PIT, measures: { hand_cm: 12 }, bucket_L: 20 });
    expect(answer.json()).toMatchObject({ bucket_L: 20, buckets: 19 });
    expect(asked[0]?.measures).toEqual({ hand_cm: 12, span_cm: 20, forearm_cm: 45, stride_cm: 75 });
  });
});

describe('a plan is refused', () => {
  test.each<[object, string[]]>([
    [{}, ['#']],
    [{ probes: 0 }, ['#']],
    [{ steps: [] }, ['#/steps']],
    [{ steps: [{ length: 150, width: 60 }] }, ['#/steps/0/height']],
    [{ steps: [{ ...STEPS[0], depth: 2 }] }, ['#/steps/0/depth']],
    [{ steps: [{ ...STEPS[0], length: -1 }] }, ['#/steps/0/length']],
    [{ roots: 0 }, ['#/roots']],
    [{ roots: 2.5 }, ['#/roots']],
    [{ roots: '400' }, ['#/roots']],
    [{ roots: 10, roots_kg: 3 }, ['#/roots_kg']],
    [{ roots: 10, kind: 'heap' }, ['#/kind']],
    [{ roots: 10, probes: 21 }, ['#/probes']],
    [{ roots: 10, bucket_L: 0 }, ['#/bucket_L']],
    [{ roots: 10, ground_C: 99 }, ['#/ground_C']],
    [{ roots: 10, measures: { hand_cm: 50 } }, ['#/measures/hand_cm']],
    [{ roots: 10, colour: 'red' }, ['#/colour']],
  ])('%j by name', async (body, places) => {
    const { answer, asked } = await ask(body);
    expect(placesOf(problemOfAnswer(answer, 400))).toEqual(places);
    expect(asked).toEqual([]);
  });

  test.each<[object, RegExp]>([
    [{ steps: [STEPS[0], { ...STEPS[1], length: 160 }] }, /step 2: expected a length of at most 150 cm/],
    [{ kind: 'box', steps: STEPS }, /number of steps of a box/],
    [{ steps: [{ length: 100, width: 60, height: 10 }] }, /depth of at least 17 cm/],
  ])('%j in a sentence', async (body, detail) => {
    expect(problemOfAnswer((await ask(body)).answer, 422).detail).toMatch(detail);
  });

  test('as another drawing, and where too much is asked at a time', async () => {
    expect(placesOf(problemOfAnswer((await ask(PIT, { url: '/api/plan?as=png' })).answer, 400))).toEqual([
      'as',
    ]);
    const busy = { plan: () => Promise.reject(new SandlarderError('LIMIT_EXCEEDED', 'ask again')) };
    const { answer } = await ask(PIT, { ports: Object.assign(new PortsInMemory(), busy) });
    expect(problemOfAnswer(answer, 400).code).toBe('LIMIT_EXCEEDED');
  });
});
