import { expect, test } from 'vitest';
import { appOver, placesOf, problemOfAnswer } from './answers.js';
import { NEWEST_ms, PortsInMemory } from './ports.js';

const body = {
  at: '2026-06-01T12:30:00+02:00',
  by: 'keeper',
  opened: true,
  repacked: false,
  found: ['rot', 'damp'],
};
const inspect = (payload: object, bed = 'pit-a') =>
  ({ method: 'POST', url: `/api/beds/${bed}/inspections`, payload }) as const;

test('an inspection is written down and answered with 201', async () => {
  const ports = new PortsInMemory();
  const answer = await (await appOver(ports)).inject(inspect(body));
  expect(answer.statusCode).toBe(201);
  expect(answer.json()).toMatchObject({
    ...body,
    id: 'inspection-1',
    bed: 'pit-a',
    at: '2026-06-01T10:30:00Z',
  });
  expect(ports.inspections).toEqual([{ ...body, id: 'inspection-1', bed: 'pit-a', at: NEWEST_ms }]);
});

test.each([
  [{ ...body, at: undefined }, ['#/at']],
  [{ ...body, at: 'today' }, ['#/at']],
  [{ ...body, at: NEWEST_ms }, ['#/at']],
  [{ ...body, at: '1999-01-01T00:00:00Z' }, ['#/at']],
  [{ ...body, by: '' }, ['#/by']],
  [{ ...body, opened: 'yes' }, ['#/opened']],
  [{ ...body, repacked: 1 }, ['#/repacked']],
  [{ ...body, found: [] }, ['#/found']],
  [{ ...body, found: 'rot' }, ['#/found']],
  [{ ...body, found: ['rot', 'gold'] }, ['#/found/1']],
  [{ ...body, bed: 'box-b' }, ['#/bed']],
  [{ ...body, found: Array.from({ length: 6 }, () => 'rot') }, ['#/found']],
])('%j is refused by place', async (wrong, places) => {
  const ports = new PortsInMemory();
  const answer = await (await appOver(ports)).inject(inspect(wrong));
  expect(placesOf(problemOfAnswer(answer, 400))).toEqual(places);
  expect(ports.inspections).toEqual([]);
});

test('a time in the future contradicts the clock: 409', async () => {
  const app = await appOver();
  const problem = problemOfAnswer(await app.inject(inspect({ ...body, at: '2030-01-01T00:00:00Z' })), 409);
  expect(problem.code).toBe('CONFLICT');
});

test('a bed that is not known is 404', async () => {
  const app = await appOver();
  problemOfAnswer(await app.inject(inspect(body, 'pit-z')), 404);
});
