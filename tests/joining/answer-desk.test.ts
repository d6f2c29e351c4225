/** What people send back over a real database: what it does, and that it does it once. */
import { randomUUID } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { CATALOGUES, LANGUAGES } from '../../services/core/alarms/languages/index.js';
import { aBed, aKeeper, type Duty, openDuty, PHONE, SITE } from '../support/duty.js';

function sms(duty: Duty, text: string, sender: string = PHONE.ana, id: string = randomUUID()): string {
  return duty.answers.take({ id, via: 'sms', sender, text });
}

/** Told of pit A as 1 and of pit B as 2. */
function told(site: unknown = SITE): { duty: Duty; a: string; b: string } {
  const duty = openDuty(site);
  const a = duty.raise('pit-a');
  duty.plan();
  duty.pass(1);
  const b = duty.raise('pit-b');
  duty.plan();
  duty.deliver();
  duty.fresh();
  return { duty, a, b };
}

const rowOf = (duty: Duty, id: string) => duty.registry.alarms.get(id);
const replies = (duty: Duty) => duty.fresh().filter(({ body }) => body.event === 'reply');

test('why an answer is for no alarm is kept with it', () => {
  const { duty } = told();
  expect(sms(duty, 'OK 9')).toBe('no open alarm has the number 9');
  expect(sms(duty, 'OK')).toBe('several are open and no number was given');
  expect(sms(duty, 'OK ALL', PHONE.ben)).toBe('no open alarm that its sender was told of');
});

describe('OK', () => {
  test.each(['OK 1', 'ok 1', ' Ok  1. ', 'OK1'])('%j acknowledges that alarm and no other', (text) => {
    const { duty, a, b } = told();
    expect(sms(duty, text)).toBe(`seen: ${a}`);
    expect(rowOf(duty, a)?.acknowledgement).toMatchObject({ by: 'Ana', at: duty.now() });
    expect(rowOf(duty, b)?.acknowledgement).toBeNull();
    const [reply, ...others] = replies(duty);
    expect(others).toEqual([]);
    expect(reply).toMatchObject({ to: PHONE.ana, via: 'sms' });
    expect(reply?.body.text).toMatch(/Pit A/);
  });

  test('without a number is for the only one; with two open it is asked for the number', () => {
    const { duty, a, b } = told();
    expect(sms(duty, 'OK')).toMatch(/several are open/);
    expect(replies(duty).map(({ body }) => body.text)).toEqual([
      'Which one? 2 Pit B, 1 Pit A. Answer OK 2 or OK ALL.',
    ]);
    expect([rowOf(duty, a), rowOf(duty, b)].map((row) => row?.acknowledgement)).toEqual([null, null]);
    duty.clear('pit-b');
    expect(sms(duty, 'OK')).toBe(`seen: ${a}`);
  });

  test.each(LANGUAGES.map(({ language }) => language))(
    'in %s, in the words of its own messages',
    (language) => {
      const { answers } = CATALOGUES[language];
      const { duty, a } = told({
        ...SITE,
        people: [aKeeper('ana', { language }), aKeeper('ben'), aKeeper('cy')],
      });
      expect(sms(duty, `${answers.seen.at(-1)?.toUpperCase()} 1`)).toBe(`seen: ${a}`);
    },
  );
});

describe('FOUND', () => {
  test('writes an inspection down, once, and acknowledges', () => {
    const { duty, a } = told();
    expect(sms(duty, 'FOUND ROT 1')).toBe(`found: ${a}`);
    expect(rowOf(duty, a)?.acknowledgement?.note).toBe('by what was found');
    expect(duty.registry.inspections.latest('pit-a')).toMatchObject({
      ...{ at: duty.now(), by: 'Ana', opened: true, repacked: false },
      found: ['rot'],
    });
  });

  test.each([
    ['again after a crash of the modem', 'm-same', 'm-same', 1],
    ['twice by a person', 'm-one', 'm-two', 2],
  ])('that comes %s', (_, first, second, inspections) => {
    const { duty } = told();
    sms(duty, 'FOUND ROT 1', PHONE.ana, first);
    duty.pass(1);
    sms(duty, 'FOUND ROT 1', PHONE.ana, second);
    expect(duty.registry.inspections.between('pit-a', 0, Number.MAX_SAFE_INTEGER)).toHaveLength(inspections);
  });

  test('for a bed that is filled only tomorrow is kept with the reason, and nothing is done', () => {
    const { duty, a } = told();
    duty.load({
      ...SITE,
      beds: [aBed('pit-a', { filled: '2026-06-02T08:00:00Z' }), aBed('pit-b'), aBed('pit-c')],
    });
    expect(sms(duty, 'FOUND ROT 1')).toMatch(
      /^could not be done: at: expected a time after the bed was filled/,
    );
    expect(rowOf(duty, a)?.acknowledgement).toBeNull();
    expect(duty.registry.answers.list(1)[0]).toMatchObject({ person: 'ana', text: 'FOUND ROT 1' });
  });

  test('in the middle of a failure leaves nothing, and counts when it comes again', () => {
    const { duty, a } = told();
    duty.database.exec(
      "CREATE TRIGGER full BEFORE INSERT ON answer BEGIN SELECT RAISE(ABORT, 'disk full'); END",
    );
    expect(() => sms(duty, 'FOUND ROT 1', PHONE.ana, 'm-x')).toThrow(/disk full/);
    expect(duty.registry.inspections.latest('pit-a')).toBeNull();
    expect(rowOf(duty, a)?.acknowledgement).toBeNull();
    duty.database.exec('DROP TRIGGER full');
    expect(sms(duty, 'FOUND ROT 1', PHONE.ana, 'm-x')).toBe(`found: ${a}`);
  });
});

test('LATER puts off for so long', () => {
  const { duty, a } = told();
  expect(sms(duty, 'LATER 1 6h')).toBe(`quiet: ${a}`);
  expect(rowOf(duty, a)?.shelving).toEqual({ by: 'Ana', at: duty.now(), until: duty.now() + 6 * 3_600_000 });
});

describe('whoever is unknown', () => {
  test.each(['+260971111111', 'BANK', '', '0970000001', PHONE.ana.slice(1)])(
    '%j: kept, and left alone',
    (sender) => {
      const { duty, a } = told();
      expect(sms(duty, 'OK 1', sender)).toMatch(/^unknown sender/);
      expect(rowOf(duty, a)?.acknowledgement).toBeNull();
      expect(replies(duty)).toEqual([]);
      expect(duty.registry.answers.list(9)).toMatchObject([
        { sender, person: null, site: null, text: 'OK 1' },
      ]);
    },
  );

  test('the right number by another way', () => {
    const { duty } = told();
    expect(duty.answers.take({ id: 'x', via: 'email', sender: PHONE.ana, text: 'OK 1' })).toMatch(/unknown/);
  });

  test("with a name of a book's length: its beginning is kept", () => {
    const { duty } = told();
    sms(duty, 'x'.repeat(10_000), 'y'.repeat(60_000));
    const [kept] = duty.registry.answers.list(1);
    expect(kept?.sender).toHaveLength(100);
    expect(kept?.text).toHaveLength(1000);
  });
});

describe('what is not understood', () => {
  test.each([
    ['10,000 characters', 'OK 1 '.repeat(2000)],
    ['nothing', ''],
    ['a number that no alarm has', 'OK 9'],
    ['a turn of phrase', 'I will not go'],
    ['half an emoji', 'OK \ud83d 1 \u0000'],
  ])('%s: kept, answered once, nothing done', (_, text) => {
    const { duty, a, b } = told();
    sms(duty, text);
    expect([rowOf(duty, a), rowOf(duty, b)].every((row) => row?.shelving === null)).toBe(true);
    expect(rowOf(duty, b)?.acknowledgement).toBeNull();
    expect(replies(duty)).toHaveLength(1);
    expect(duty.registry.answers.list(9)).toHaveLength(1);
  });

  test('a second try within minutes is answered too', () => {
    const { duty } = told();
    sms(duty, 'hm');
    duty.pass(1);
    sms(duty, 'OK 1');
    expect(replies(duty).at(-1)?.body.text).toMatch(/Pit A/);
  });

  test('two machines that answer each other: a few replies an hour and a day', () => {
    const { duty } = told();
    for (let minute = 0; minute < 60; minute += 1) {
      sms(duty, 'Thank you for your message.');
      duty.pass(1);
    }
    expect(replies(duty)).toHaveLength(6);
    for (let hour = 0; hour < 22; hour += 1) {
      for (let turn = 0; turn < 10; turn += 1) sms(duty, 'Thank you for your message.');
      duty.pass(60);
    }
    expect(replies(duty)).toHaveLength(14);
  });
});

describe('a number of another site', () => {
  const other = {
    ...SITE,
    site: { ...SITE.site, id: 'valley', name: 'Valley' },
    beds: [aBed('pit-z', { keeper: 'zoe' })],
    people: [{ id: 'zoe', name: 'Zoe', language: 'en', reach: [{ via: 'sms', to: PHONE.cy }] }],
  };

  test('is no number for whoever does not keep that site', () => {
    const { duty } = told();
    duty.load(other);
    duty.station.refresh();
    const id = duty.raise('pit-z');
    duty.plan();
    expect(rowOf(duty, id)?.number).toBe(3);
    expect(sms(duty, 'OK 3')).toMatch(/^no open alarm/);
    expect(rowOf(duty, id)?.acknowledgement).toBeNull();
  });

  test('is one for whoever keeps beds of both by one telephone', () => {
    const { duty, a } = told();
    duty.load(other);
    duty.station.refresh();
    const id = duty.raise('pit-z');
    duty.plan();
    expect(sms(duty, `OK ${rowOf(duty, id)?.number}`, PHONE.cy)).toBe(`seen: ${id}`);
    expect(rowOf(duty, id)?.acknowledgement?.by).toBe('Zoe');
    expect(sms(duty, 'OK 1', PHONE.cy)).toBe(`seen: ${a}`);
    expect(rowOf(duty, a)?.acknowledgement?.by).toBe('Cy');
  });
});

describe('STOP', () => {
  test('ends it at once: what waits is not sent, the next way is used, and it is thanked for', () => {
    const { duty } = told();
    duty.raise('pit-c');
    duty.plan();
    duty.fresh();
    expect(sms(duty, 'STOP')).toMatch(/^asked that messages stop/);
    expect(duty.stopped).toEqual(['ridge/ana']);
    const waiting = duty.registry.outbox.due(Number.MAX_SAFE_INTEGER, 99).filter(({ via }) => via === 'sms');
    expect(waiting.map(({ key }) => key.split('/')[0])).toEqual(['reply']);
    duty.plan();
    expect(
      duty
        .fresh()
        .filter(({ body }) => body.event !== 'reply')
        .every(({ via }) => via === 'email'),
    ).toBe(true);
  });

  test('holds until it is written again', () => {
    const { duty } = told();
    sms(duty, 'STOP');
    expect(duty.registry.answers.stopped()).toEqual([{ via: 'sms', to: PHONE.ana }]);
    sms(duty, 'OK 1');
    expect(duty.registry.answers.stopped()).toEqual([]);
  });

  test('that comes twice as one message does not undo what came between', () => {
    const { duty } = told();
    sms(duty, 'STOP', PHONE.ana, 'same');
    sms(duty, 'OK 1');
    sms(duty, 'STOP', PHONE.ana, 'same');
    expect(duty.registry.answers.stopped()).toEqual([]);
  });
});
