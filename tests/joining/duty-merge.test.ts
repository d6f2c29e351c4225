/** After a night without network: what waits for one address is merged into one message of what still holds. */
import { describe, expect, test } from 'vitest';
import { aBed, clock, type Duty, inShort, openDuty, PHONE, SITE } from '../support/duty.js';

/** Without another way than short messages. */
const site = {
  ...SITE,
  beds: ['pit-a', 'pit-b', 'pit-c', 'pit-d'].map((id) => aBed(id)),
  people: SITE.people.map((person) => ({
    ...person,
    reach: (person as { reach: object[] }).reach.slice(0, 1),
  })),
};

/** Three beds were told of in vain since 22:00, apart from each other; it is 23:20. */
function night(): { duty: Duty; ids: string[] } {
  const duty = openDuty(site);
  duty.goTo(clock('22:00'));
  const ids = ['pit-a', 'pit-b', 'pit-c'].map((bed) => {
    const id = duty.raise(bed);
    duty.plan();
    duty.fail('sms', 1);
    duty.pass(5);
    return id;
  });
  duty.goTo(clock('23:20'));
  return { duty, ids };
}

const waiting = (duty: Duty) =>
  duty.registry.outbox.due(Number.MAX_SAFE_INTEGER, 100).filter(({ via }) => via === 'sms');

describe('what waited for more than an hour', () => {
  test('becomes one message', () => {
    const { duty } = night();
    expect(inShort(duty.fresh())).toEqual(['ana sms raised', 'ana sms raised', 'ana sms raised']);
    duty.plan();
    const merged = duty.fresh();
    expect(inShort(merged)).toEqual(['ana sms bundle']);
    expect(merged[0]?.body.text).toMatch(/3 beds need a look: .*Pit A.*Pit B.*Pit C|Pit C.*Pit B.*Pit A/);
    expect(waiting(duty).map(({ key }) => key)).toEqual([merged[0]?.key]);
    duty.plan();
    expect(duty.fresh()).toEqual([]);
  });

  test('still says how rotten roots are handled: nobody has read it yet', () => {
    const { duty } = night();
    duty.fresh();
    duty.plan();
    expect(duty.fresh()[0]?.body.text).toMatch(/Rotten roots: never eat or feed, bury\./);
  });

  test('leaves out what is over, and its end is not told to whoever never heard of it', () => {
    const { duty, ids } = night();
    duty.clear('pit-b');
    duty.fresh();
    duty.plan();
    const [merged] = duty.fresh();
    expect(merged?.body.text).not.toMatch(/Pit B/);
    duty.deliver();
    duty.goTo(clock('10:00', 2));
    duty.plan();
    expect(duty.fresh()).toEqual([]);
    expect(duty.registry.told.ofAlarm(ids[1] ?? '')).toEqual([]);
  });

  test('leaves out what somebody has acknowledged or put off', () => {
    const { duty, ids } = night();
    duty.views.acknowledge(ids[0] ?? '', { by: 'Ben', note: '' });
    duty.views.shelve(ids[1] ?? '', { by: 'Ben', hours: 12 });
    duty.fresh();
    duty.plan();
    const [merged, ...others] = duty.fresh();
    expect(merged?.body).toMatchObject({ event: 'raised', number: 3 });
    expect(others.filter(({ key }) => !key.endsWith('/more'))).toEqual([]);
  });

  test('is gone where nothing of it holds', () => {
    const { duty } = night();
    for (const bed of ['pit-a', 'pit-b', 'pit-c']) duty.clear(bed);
    duty.fresh();
    duty.plan();
    expect(duty.fresh()).toEqual([]);
    expect(waiting(duty)).toEqual([]);
  });

  test('says an alarm that late readings put elsewhere as it is now', () => {
    const { duty, ids } = night();
    duty.retell('pit-a', (story) => story.map((change) => ({ ...change, at: change.at - 3_600_000 })));
    const [row] = duty.registry.alarms.open('pit-a');
    expect(row?.id).not.toBe(ids[0]);
    duty.fresh();
    duty.plan();
    expect(inShort(duty.fresh())).toEqual(['ana sms bundle']);
    expect(duty.registry.told.ofAlarm(row?.id ?? '')).toHaveLength(1);
    duty.deliver();
    duty.pass(60);
    duty.plan();
    expect(duty.fresh()).toEqual([]);
  });
});

test('what comes back after its end was told in vain is told once', () => {
  const duty = openDuty(site);
  duty.raise('pit-b');
  duty.raise('pit-a');
  duty.plan();
  duty.fail('sms', 1);
  duty.pass(10);
  duty.clear('pit-a');
  duty.plan();
  duty.fail('sms', 1);
  duty.pass(10);
  duty.retell('pit-a', (story) => story.filter(({ type }) => type === 'raise'));
  duty.plan();
  duty.fail('sms', 1);
  duty.pass(70);
  duty.fresh();
  duty.plan();
  expect(inShort(duty.fresh())).toEqual(['ana sms bundle']);
  duty.deliver();
  duty.plan();
  expect(duty.fresh()).toEqual([]);
});

test('a message and the second text of it are not two messages', () => {
  const duty = openDuty({ ...site, beds: [aBed('pit-a', { name: 'Pit of the long name by the river' })] });
  duty.raise('pit-a', { kind: 'wetting' });
  duty.plan();
  duty.fail('sms', 1);
  const sent = duty.fresh();
  expect(sent.map(({ key }) => key.endsWith('/more'))).toEqual([false, true]);
  duty.pass(70);
  duty.plan();
  expect(duty.fresh()).toEqual([]);
});

test('an address that was dead stays so for what takes the place of what waited', () => {
  const duty = openDuty();
  duty.raise('pit-a');
  duty.plan();
  duty.pass(5);
  duty.raise('pit-b');
  duty.plan();
  duty.fail('sms', 4);
  duty.pass(70);
  duty.plan();
  duty.fresh();
  duty.raise('pit-c');
  duty.plan();
  expect(inShort(duty.fresh())).toEqual(['ana email raised']);
});

test('messages of others to the same address stay as they are', () => {
  const duty = openDuty({
    ...site,
    people: [
      ...site.people,
      {
        id: 'dee',
        name: 'Dee',
        language: 'en',
        reach: [{ via: 'sms', to: PHONE.ana }],
        beds: ['pit-a', 'pit-b'],
      },
    ],
  });
  duty.raise('pit-a');
  duty.plan();
  duty.pass(5);
  duty.raise('pit-b');
  duty.plan();
  duty.fail('sms', 1);
  duty.pass(70);
  duty.fresh();
  duty.plan();
  expect(duty.fresh().map(({ key }) => key.split('/')[2])).toEqual(['ana', 'dee']);
});
