/** Who is told of which alarm and when, over a real database: from what the keeper of alarms writes to the outbox. */
import { describe, expect, test } from 'vitest';
import { aBed, aKeeper, clock, inShort, openDuty, PHONE, SITE } from '../support/duty.js';
import { temporaryDirectory } from '../support/open.js';

const CHECK = { kind: 'damp', action: 'check', priority: 'medium' } as const;

describe('quiet hours', () => {
  test('do not hold back what asks to be unpacked; all else waits for the morning and comes in one message', () => {
    const duty = openDuty();
    duty.goTo(clock('22:00'));
    duty.raise('pit-a');
    duty.raise('pit-b', CHECK);
    duty.raise('pit-c', CHECK);
    duty.plan();
    expect(inShort(duty.fresh())).toEqual(['ana sms raised']);
    duty.deliver();
    const next = duty.plan();
    expect(duty.fresh()).toEqual([]);
    expect(next).toBe(clock('06:30', 2));
    duty.goTo(next ?? 0);
    duty.plan();
    const [bundle, ...others] = duty.fresh();
    expect(others).toEqual([]);
    expect(bundle).toMatchObject({ to: PHONE.ana, body: { event: 'bundle' } });
    expect(bundle?.body.text).toMatch(/^2 beds need a look: Pit B damp.*Pit C damp.*OK 2 3/);
  });

  test('are over: an unpack that ended meanwhile is told as over, once', () => {
    const duty = openDuty();
    duty.raise('pit-a');
    duty.plan();
    duty.deliver();
    duty.goTo(clock('23:00'));
    duty.clear('pit-a');
    expect(duty.plan()).toBe(clock('06:00', 2));
    expect(inShort(duty.fresh())).toEqual(['ana sms raised']);
    duty.goTo(clock('06:00', 2));
    duty.plan();
    duty.plan();
    expect(inShort(duty.fresh())).toEqual(['ana sms cleared']);
  });
});

test('what ended and what began in one message: what is over is not called a bed that needs a look', () => {
  const duty = openDuty();
  duty.raise('pit-a', CHECK);
  duty.raise('pit-b', CHECK);
  duty.goTo(clock('06:30', 2));
  duty.plan();
  duty.deliver();
  duty.fresh();
  duty.goTo(clock('12:00', 2));
  duty.clear('pit-a', CHECK);
  duty.clear('pit-b', CHECK);
  duty.raise('pit-c', CHECK);
  duty.goTo(clock('06:30', 3));
  duty.plan();
  const text = duty
    .fresh()
    .map(({ body }) => body.text)
    .join('\n');
  expect(text).toMatch(/Pit C/);
  expect(text).toMatch(/Pit A: over/);
  expect(text).toMatch(/Pit B: over/);
  expect(text).not.toMatch(/[23] beds need a look/);
});

test('one bed sends no more than the set number a day, the last as a summary; a new unpack passes', () => {
  const site = { ...SITE, site: { ...SITE.site, telling: { most_per_bed_a_day: 3, repeat_after_h: 1 } } };
  const duty = openDuty(site);
  duty.goTo(clock('08:00'));
  duty.raise('pit-a');
  for (let hour = 0; hour < 12; hour += 1) {
    duty.plan();
    duty.deliver();
    duty.pass(61);
  }
  expect(inShort(duty.fresh())).toEqual(['ana sms raised', 'ana sms raised', 'ana sms summary']);
  duty.raise('pit-a', { kind: 'wetting' });
  duty.plan();
  expect(inShort(duty.fresh())).toEqual(['ana sms raised']);
});

describe('a storm', () => {
  const many = { ...SITE, beds: Array.from({ length: 12 }, (_, index) => aBed(`pit-${index}`)) };

  test('is one summary, and with it how rotten roots are handled', () => {
    const duty = openDuty(many);
    for (let index = 0; index < 12; index += 1) duty.raise(`pit-${index}`);
    duty.plan();
    const sent = duty.fresh();
    expect(inShort(sent)).toEqual(['ana sms summary']);
    expect(sent[0]?.body.text).toMatch(/12/);
    expect(sent[0]?.body.text).toMatch(/Rotten roots: never eat or feed, bury\./);
    duty.deliver();
    duty.plan();
    expect(duty.fresh()).toEqual([]);
  });

  test('each of its alarms has a number of its own to answer with', () => {
    const duty = openDuty(many);
    const ids = Array.from({ length: 12 }, (_, index) => duty.raise(`pit-${index}`));
    duty.plan();
    const numbers = ids.map((id) => duty.registry.alarms.get(id)?.number);
    expect(new Set(numbers).size).toBe(12);
    expect(numbers).not.toContain(null);
  });
});

describe('who does not answer', () => {
  const site = {
    ...SITE,
    site: { ...SITE.site, escalation: [{ to: 'crew', after_min: 30 }] },
    people: [aKeeper('ana', { language: 'sw' }), aKeeper('ben'), aKeeper('cy')],
    groups: [
      { id: 'crew', name: 'Crew', lead: 'ben', members: ['cy', 'ana'] },
      { id: 'others', name: 'Others', lead: 'cy', members: ['ben'] },
    ],
    beds: [aBed('pit-a'), aBed('pit-b', { keeper: 'crew', escalation: [{ to: 'others', after_min: 30 }] })],
  };

  test('is passed over for the next, who hears who was silent; nobody hears it twice', () => {
    const duty = openDuty(site);
    duty.raise('pit-a');
    duty.plan();
    const [first] = duty.fresh();
    expect(first?.body.language).toBe('sw');
    duty.deliver();
    duty.pass(29);
    duty.plan();
    expect(duty.fresh()).toEqual([]);
    duty.pass(1);
    duty.plan();
    const passed = duty.fresh();
    expect(inShort(passed)).toEqual(['ben sms raised', 'cy sms raised']);
    for (const { body } of passed) expect(body.text).toMatch(/^Not answered by Ana\. /);
    duty.plan();
    expect(duty.fresh()).toEqual([]);
  });

  test('because nothing reaches them is passed over at once, and that is what is said', () => {
    const duty = openDuty(site);
    duty.raise('pit-a');
    for (const via of ['sms', 'email']) {
      duty.plan();
      const [message] = duty.fresh();
      expect(message?.via).toBe(via);
      duty.registry.outbox.givenUp(message?.key ?? '', duty.now(), 'refused');
    }
    duty.plan();
    const passed = duty.fresh();
    expect(inShort(passed)).toEqual(['ben sms raised', 'cy sms raised']);
    for (const { body } of passed) expect(body.text).toMatch(/^Ana cannot be reached\. /);
  });

  test('an acknowledgement ends it', () => {
    const duty = openDuty(site);
    const id = duty.raise('pit-a');
    duty.plan();
    duty.deliver();
    duty.views.acknowledge(id, { by: 'Ana', note: '' });
    duty.pass(40);
    expect(duty.plan()).toBeNull();
    expect(duty.fresh()).toHaveLength(1);
  });

  test('whoever is in both groups is told once', () => {
    const duty = openDuty(site);
    duty.raise('pit-b');
    for (let step = 0; step < 4; step += 1) {
      duty.plan();
      duty.deliver();
      duty.pass(31);
    }
    expect(inShort(duty.fresh())).toEqual(['ana sms raised', 'ben sms raised', 'cy sms raised']);
  });

  test('silence that was asked for stops the passing on, until it ends', () => {
    const duty = openDuty(site);
    const id = duty.raise('pit-a');
    duty.plan();
    duty.deliver();
    duty.fresh();
    duty.views.shelve(id, { by: 'Ana', hours: 2 });
    duty.pass(60);
    expect(duty.plan()).toBe(clock('12:00'));
    expect(duty.fresh()).toEqual([]);
    duty.goTo(clock('12:30'));
    duty.plan();
    expect(inShort(duty.fresh())).toEqual(['ben sms raised', 'cy sms raised']);
  });
});

describe('a way that is dead', () => {
  test('is noticed after a quarter of an hour and three attempts: the next is used', () => {
    const duty = openDuty();
    duty.raise('pit-a');
    duty.plan();
    duty.fail('sms', 2);
    duty.pass(16);
    duty.plan();
    expect(inShort(duty.fresh())).toEqual(['ana sms raised']);
    duty.fail('sms', 1);
    duty.plan();
    expect(inShort(duty.fresh())).toEqual(['ana email raised']);
  });

  test('given up by its sender: the next is used at once', () => {
    const duty = openDuty();
    duty.raise('pit-a');
    duty.plan();
    const [message] = duty.fresh();
    duty.registry.outbox.givenUp(message?.key ?? '', duty.now(), 'refused');
    duty.plan();
    expect(inShort(duty.fresh())).toEqual(['ana email raised']);
  });

  test('that this service has not is not written to', () => {
    const duty = openDuty(SITE, { hasWay: (via) => via === 'email' });
    duty.raise('pit-a');
    duty.plan();
    expect(inShort(duty.fresh())).toEqual(['ana email raised']);
  });

  test('and no other is left: it is told of once, and not any more when nobody is to be told', () => {
    const duty = openDuty(SITE, { hasWay: () => false });
    const id = duty.raise('pit-a');
    duty.plan();
    duty.plan();
    expect(duty.fresh()).toEqual([]);
    expect(duty.unreachable).toEqual([[id]]);
    duty.load({
      ...SITE,
      people: [aKeeper('ana'), aKeeper('ben'), aKeeper('cy')].map((one) => ({ ...one, reach: [] })),
    });
    duty.plan();
    expect(duty.unreachable).toEqual([[id], []]);
  });
});

describe('a plan', () => {
  test('that fails leaves nothing behind, and the next one tells', () => {
    let broken = true;
    const duty = openDuty(SITE, {
      linkFor: () => {
        if (broken) throw new Error('no disk');
        return undefined;
      },
    });
    const id = duty.raise('pit-a');
    expect(() => duty.plan()).toThrow('no disk');
    expect(duty.posted()).toEqual([]);
    expect(duty.registry.told.ofAlarm(id)).toEqual([]);
    expect(duty.registry.alarms.get(id)?.number).toBeNull();
    broken = false;
    duty.plan();
    expect(inShort(duty.fresh())).toEqual(['ana sms raised']);
  });

  test('is made again after a crash: what was told is not told again', () => {
    const directory = temporaryDirectory();
    const before = openDuty(SITE, { directory });
    before.raise('pit-a');
    before.plan();
    before.close();
    const after = openDuty(SITE, { directory });
    after.pass(1);
    after.plan();
    expect(after.posted()).toHaveLength(1);
  });

  test('writes its records with the messages: each record names a message of the outbox', () => {
    const duty = openDuty();
    const id = duty.raise('pit-a');
    duty.plan();
    const [record] = duty.registry.told.ofAlarm(id);
    expect(duty.posted().map(({ key }) => key)).toContain(record?.message);
  });

  test("leaves out people without an address and everybody's console", () => {
    const site = {
      ...SITE,
      people: [aKeeper('ana', { reach: [{ via: 'console', to: 'console' }] }), aKeeper('ben'), aKeeper('cy')],
    };
    const duty = openDuty(site);
    duty.raise('pit-a');
    duty.plan();
    expect(duty.fresh()).toEqual([]);
  });
});
