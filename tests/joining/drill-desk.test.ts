/** Marked tests: who gets one, how long it took, and the one that comes every month. */
import { describe, expect, test } from 'vitest';
import { codeOf } from '../core/physics/refused.js';
import { aBed, aKeeper, clock, type Duty, openDuty, PHONE, SITE } from '../support/duty.js';

const run = <Result>(duty: Duty, work: () => Result): Result => duty.station.inTransaction(work);
const start = (duty: Duty, bed = 'pit-a') => run(duty, () => duty.drills.start(bed, 'Technician'));

const site = {
  ...SITE,
  site: { ...SITE.site, escalation: [{ to: 'crew', after_min: 30 }], telling: { drill: 'monthly' } },
  people: [
    aKeeper('ana', { language: 'sw' }),
    aKeeper('ben', { reach: [{ via: 'webhook', to: 'https://ben.example/' }] }),
    aKeeper('cy', { reach: [] }),
    { id: 'dee', name: 'Dee', language: 'en', reach: [{ via: 'sms', to: '+260970000009' }], lead: true },
    { id: 'eve', name: 'Eve', language: 'en', reach: [{ via: 'sms', to: '+260970000008' }] },
  ],
  groups: [{ id: 'crew', name: 'Crew', lead: 'ben', members: ['cy'] }],
};

describe('a drill', () => {
  test('goes to all who may be told of the bed, by every way that can be used; nobody else', () => {
    const duty = openDuty(site);
    const { messages, without } = start(duty);
    expect(messages.map(({ person, via }) => `${person} ${via}`)).toEqual([
      'site console',
      'ana sms',
      'ana email',
      'dee sms',
    ]);
    expect([...without].sort()).toEqual(['ben', 'cy']);
  });

  test('says that it is one, in the language of each', () => {
    const duty = openDuty(site);
    start(duty);
    const [ana, , dee] = duty.fresh();
    expect(ana?.body).toMatchObject({ event: 'drill', language: 'sw' });
    expect(ana?.body.text).toMatch(/Pit A/);
    expect(dee?.body.text).toMatch(/^TEST, no alarm: Pit A\./);
    expect(duty.registry.alarms.list({ limit: 9 }).rows).toEqual([]);
  });

  test('tells how long each took, what waits and what was given up', () => {
    const duty = openDuty(site);
    const { id } = start(duty);
    const [sms, email, other] = duty.fresh().map(({ key }) => key);
    duty.pass(1);
    duty.registry.outbox.delivered(sms ?? '', duty.now());
    duty.registry.outbox.failed(email ?? '', duty.now(), duty.now() + 1, 'no connection');
    duty.registry.outbox.givenUp(other ?? '', duty.now(), 'refused 3 times');
    expect(duty.drills.get(id).messages.slice(1)).toEqual([
      { person: 'ana', via: 'sms', after_s: 60, received_s: null, gone: true, error: null },
      { person: 'ana', via: 'email', after_s: null, received_s: null, gone: true, error: 'no connection' },
      { person: 'dee', via: 'sms', after_s: null, received_s: null, gone: false, error: 'refused 3 times' },
    ]);
  });

  test('does not write to whoever asked that messages stop, and says so', () => {
    const duty = openDuty(site);
    duty.registry.answers.stop('sms', '+260970000009', duty.now());
    const { messages, without } = start(duty);
    const error = 'its receiver asked that messages stop';
    expect(messages.filter(({ person }) => person === 'dee')).toEqual([
      { person: 'dee', via: 'sms', after_s: null, received_s: null, gone: false, error },
    ]);
    expect(without).toContain('dee');
    const waiting = duty.registry.outbox.due(Number.MAX_SAFE_INTEGER, 100);
    expect(waiting.map(({ to }) => to)).not.toContain('+260970000009');
  });

  test('is no alarm: nothing of the day is used up, and nobody is told that it was not answered', () => {
    const duty = openDuty({ ...site, site: { ...site.site, telling: { most_per_bed_a_day: 2 } } });
    for (let turn = 0; turn < 5; turn += 1) start(duty);
    duty.deliver();
    duty.fresh();
    duty.raise('pit-a', { kind: 'damp', action: 'check' });
    duty.goTo(clock('07:00', 2));
    duty.plan();
    expect(duty.fresh().map(({ to }) => to)).toEqual([PHONE.ana]);
  });

  test('of a bed that is none, and one that is none itself', () => {
    const duty = openDuty(site);
    expect(codeOf(() => start(duty, 'pit-z'))).toBe('NOT_FOUND');
    expect(codeOf(() => duty.drills.get('none'))).toBe('NOT_FOUND');
    expect(duty.posted()).toEqual([]);
  });
});

describe('every month', () => {
  const due = (duty: Duty): number => {
    const before = duty.posted().length;
    run(duty, () => duty.drills.startDue());
    return duty.posted().length - before;
  };

  test('at nine in the morning by the clock of the site, one message to each address', () => {
    const duty = openDuty(site);
    duty.goTo(clock('08:59'));
    expect(due(duty)).toBe(0);
    duty.goTo(clock('09:00'));
    expect(due(duty)).toBe(3);
    duty.goTo(clock('09:15'));
    expect(due(duty)).toBe(0);
    duty.goTo(clock('09:00', 30));
    expect(due(duty)).toBe(0);
    duty.goTo(clock('09:00', 31));
    expect(due(duty)).toBe(3);
  });

  test('each bed has its own: the message of one stands for those of the others', () => {
    const duty = openDuty(site);
    duty.goTo(clock('09:00'));
    due(duty);
    const ids = duty.database.prepare('SELECT id FROM drill ORDER BY bed').pluck().all() as string[];
    expect(ids).toHaveLength(3);
    duty.pass(1);
    duty.deliver();
    for (const id of ids)
      expect(duty.drills.get(id).messages.map(({ after_s }) => after_s)).toEqual([60, 60, 60, 60]);
  });

  test('is not put off for other beds by a drill of one', () => {
    const duty = openDuty({ ...site, beds: [aBed('pit-a'), aBed('pit-b', { keeper: 'eve' })] });
    start(duty);
    duty.goTo(clock('09:00', 2));
    due(duty);
    const beds = duty.database.prepare(
      "SELECT bed FROM drill WHERE json_extract(document, '$.by') = 'every month'",
    );
    expect(beds.pluck().all()).toEqual(['pit-b']);
  });

  test('missed at nine is not made up for in the evening', () => {
    const duty = openDuty(site);
    duty.goTo(clock('10:00'));
    expect(due(duty)).toBe(0);
  });

  test('only where the site asks for it', () => {
    const duty = openDuty({ ...site, site: { ...site.site, telling: {} } });
    duty.goTo(clock('09:00'));
    expect(due(duty)).toBe(0);
  });
});
