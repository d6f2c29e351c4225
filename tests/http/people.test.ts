/** What gateways hand over, drills and figures, over the HTTP edge. */
import { describe, expect, test } from 'vitest';
import { PHONE } from '../support/duty.js';
import { problemOfAnswer } from './answers.js';
import { peopleApp } from './people-app.js';

describe('what a gateway hands over', () => {
  const inForm = new URLSearchParams({ sender: PHONE.ana, message: 'OK 1' }).toString();
  const receive = (where: 'form' | 'json' | 'query') => ({ in: where, from: 'sender', text: 'message' });

  test.each(['form', 'json', 'query'] as const)('%s', async (where) => {
    const { app, duty, told, form, json } = await peopleApp({ receive: receive(where) });
    const { alarm } = told();
    const post = {
      form: () => form('/api/messages', inForm),
      json: () => json('/api/messages', { sender: PHONE.ana, message: 'OK 1' }),
      query: () => app.inject(`/api/messages?${inForm}`),
    }[where];
    const answer = await post();
    expect([answer.statusCode, answer.body]).toEqual([204, '']);
    expect(duty.registry.alarms.get(alarm)?.acknowledgement?.by).toBe('Ana');
    expect((await app.inject('/api/answers')).json()).toMatchObject([
      {
        via: 'sms',
        sender: PHONE.ana,
        text: 'OK 1',
        site: 'ridge',
        person: 'ana',
        outcome: `seen: ${alarm}`,
      },
    ]);
  });

  test('again within minutes is a repeat; the same words later are a message of their own', async () => {
    const { duty, told, form } = await peopleApp({ receive: receive('form') });
    told();
    const found = new URLSearchParams({ sender: PHONE.ana, message: 'FOUND ROT 1' }).toString();
    const inspections = () => duty.registry.inspections.between('pit-a', 0, Number.MAX_SAFE_INTEGER).length;
    await form('/api/messages', found);
    for (const minutes of [1, 4, 4]) {
      duty.pass(minutes);
      expect((await form('/api/messages', found)).statusCode).toBe(204);
    }
    expect(inspections()).toBe(1);
    duty.pass(30);
    await form('/api/messages', found);
    expect(inspections()).toBe(2);
    expect(duty.registry.answers.list(9)).toHaveLength(2);
  });

  test('that is none is refused; an unknown sender is taken and left alone', async () => {
    const { duty, form, app } = await peopleApp({ receive: receive('form') });
    for (const payload of ['', 'sender=x', 'message=OK', `${inForm}&sender=y`])
      problemOfAnswer(await form('/api/messages', payload), 400);
    problemOfAnswer(await app.inject('/api/messages'), 400);
    expect((await form('/api/messages', 'sender=Bank&message=OK 1')).statusCode).toBe(204);
    expect(duty.registry.answers.list(9)).toMatchObject([{ sender: 'Bank', person: null }]);
    expect(duty.fresh()).toEqual([]);
  });

  test.each([{ origin: 'https://elsewhere.example' }, { 'sec-fetch-site': 'cross-site' }])(
    'is not taken from a page in a browser: %j',
    async (headers) => {
      const { app, duty, told } = await peopleApp({ receive: receive('query') });
      const { alarm } = told();
      problemOfAnswer(await app.inject({ url: `/api/messages?${inForm}`, headers }), 400);
      expect(duty.registry.alarms.get(alarm)?.acknowledgement).toBeNull();
    },
  );

  test('without a gateway that hands messages over there is no address', async () => {
    const { app, form } = await peopleApp();
    for (const answer of [await form('/api/messages', inForm), await app.inject(`/api/messages?${inForm}`)])
      expect(problemOfAnswer(answer, 404).detail).toMatch(/settings say how to "receive"/);
  });
});

describe('a drill', () => {
  test('is asked for and looked at', async () => {
    const { app, duty, json } = await peopleApp();
    const begun = await json('/api/drills', { bed: 'pit-a', by: 'Technician' });
    expect(begun.statusCode).toBe(201);
    const { id, messages, without } = begun.json();
    expect(without).toEqual([]);
    expect(messages).toContainEqual({
      person: 'ana',
      via: 'sms',
      after_s: null,
      received_s: null,
      gone: true,
      error: null,
    });
    duty.pass(1);
    duty.deliver();
    const later = (await app.inject(`/api/drills/${id}`)).json();
    expect(later).toMatchObject({ id, bed: 'pit-a', by: 'Technician', at: '2026-06-01T08:00:00Z' });
    expect(later.messages.map(({ after_s }: { after_s: number }) => after_s)).toEqual([60, 60, 60]);
  });

  test.each([
    [{ bed: 'pit-z', by: 'x' }, 404],
    [{ bed: 'pit-a' }, 400],
    [{ bed: 'pit-a', by: ' ' }, 400],
    [{ bed: 'Pit A', by: 'x' }, 400],
    [{ bed: 'pit-a', by: 'x', to: '+260970000001' }, 400],
  ])('%j is refused', async (body, status) => {
    const { duty, json } = await peopleApp();
    problemOfAnswer(await json('/api/drills', body), status);
    expect(duty.posted()).toEqual([]);
  });

  test('that is none is not found', async () => {
    const { app } = await peopleApp();
    problemOfAnswer(await app.inject('/api/drills/none'), 404);
  });
});

describe('figures', () => {
  const figures = async (app: Awaited<ReturnType<typeof peopleApp>>['app'], days = 1) =>
    (await app.inject(`/api/telling?days=${days}`)).json()[0];

  test('count messages, answers and how soon they came', async () => {
    const { app, duty, told } = await peopleApp();
    const { alarm } = told();
    duty.pass(30);
    duty.views.acknowledge(alarm, { by: 'Ana', note: '' });
    duty.pass(1);
    expect(await figures(app)).toMatchObject({
      ...{ site: 'ridge', told: 1, answered: 1, answered_share: 1, alarms_per_keeper_day: 1 },
      people: [{ person: 'ana', messages: 1, messages_per_week: 7 }],
      answer_min: { median: 30, percentile_90: 30 },
    });
  });

  test('an alarm that was first told before the days and is told again is not a new one', async () => {
    const { app, duty, told } = await peopleApp();
    told();
    duty.pass(25 * 60);
    duty.plan();
    duty.deliver();
    duty.pass(1);
    expect(await figures(app)).toMatchObject({ told: 0, people: [{ person: 'ana', messages: 1 }] });
  });

  test('an answer to what took its place is an answer', async () => {
    const { app, duty, told } = await peopleApp();
    told();
    duty.retell('pit-a', (story) => story.map((change) => ({ ...change, at: change.at - 3_600_000 })));
    const [row] = duty.registry.alarms.open('pit-a');
    duty.pass(10);
    duty.views.acknowledge(row?.id ?? '', { by: 'Ana', note: '' });
    duty.pass(1);
    expect(await figures(app)).toMatchObject({ told: 1, answered: 1 });
  });

  test('of nobody, and the languages with what is a draft', async () => {
    const { app } = await peopleApp();
    const found = await figures(app);
    expect(found).toMatchObject({ told: 0, answered_share: null, answer_min: null, people: [] });
    expect(found.languages).toContainEqual(expect.objectContaining({ language: 'en' }));
    for (const days of ['0', '401', 'x', '-1'])
      problemOfAnswer(await app.inject(`/api/telling?days=${days}`), 400);
  });
});

test('the description names what programs may ask, and neither the page nor the gateway', async () => {
  const { app } = await peopleApp();
  const { paths } = (await app.inject('/api/openapi.json')).json();
  expect(Object.keys(paths)).toEqual(
    expect.arrayContaining(['/api/drills', '/api/drills/{id}', '/api/answers', '/api/telling']),
  );
  expect(paths).not.toHaveProperty('/answer');
  expect(paths).not.toHaveProperty('/api/messages');
});

test('answers: so many at the most', async () => {
  const { app } = await peopleApp();
  expect((await app.inject('/api/answers')).json()).toEqual([]);
  for (const limit of ['0', '501', 'all'])
    problemOfAnswer(await app.inject(`/api/answers?limit=${limit}`), 400);
});
