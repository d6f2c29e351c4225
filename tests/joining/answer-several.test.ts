/** Answers to messages that told of several alarms, with numbers and without. */
import { randomUUID } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { CATALOGUES, LANGUAGES } from '../../services/core/alarms/languages/index.js';
import { aKeeper, clock, type Duty, inShort, openDuty, PHONE, SITE } from '../support/duty.js';

const sms = (duty: Duty, text: string, sender: string = PHONE.ana): string =>
  duty.answers.take({ id: randomUUID(), via: 'sms', sender, text });
const rowOf = (duty: Duty, id: string) => duty.registry.alarms.get(id);
const replies = (duty: Duty) => duty.fresh().filter(({ body }) => body.event === 'reply');

describe('several', () => {
  /** Looks at all three pits, in one message the next morning as 1, 2 and 3. */
  function bundled(site: unknown = SITE) {
    const duty = openDuty(site);
    const ids = ['pit-a', 'pit-b', 'pit-c'].map((bed) =>
      duty.raise(bed, { kind: 'damp', action: 'check', priority: 'medium' }),
    );
    duty.goTo(clock('06:30', 2));
    duty.plan();
    duty.deliver();
    expect(inShort(duty.fresh())).toEqual(['ana sms bundle']);
    const seenOf = () => ids.map((id) => rowOf(duty, id)?.acknowledgement?.by);
    return { duty, ids, seenOf };
  }
  const ALL = ['Ana', 'Ana', 'Ana'];

  test.each(['OK', 'ok all', 'OK 1 2 3', 'OK 1, 2 and 3'])('%j answers what one message told of', (text) => {
    const { duty, ids, seenOf } = bundled();
    expect(sms(duty, text)).toBe(`seen: ${ids.join(', ')}`);
    expect(seenOf()).toEqual(ALL);
    expect(replies(duty)[0]?.body.text).toBe('Thanks. Noted as seen: Pit A, Pit B, Pit C.');
  });

  test('some of it by their numbers, the rest by a later OK', () => {
    const { duty, seenOf } = bundled();
    sms(duty, 'OK 1 3');
    expect(seenOf()).toEqual(['Ana', undefined, 'Ana']);
    sms(duty, 'OK');
    expect(seenOf()).toEqual(ALL);
  });

  test('LATER without a number puts all of it off', () => {
    const { duty, ids } = bundled();
    sms(duty, 'LATER 6h');
    expect(ids.map((id) => rowOf(duty, id)?.shelving?.by)).toEqual(ALL);
  });

  test.each(['FOUND NOTHING', 'FOUND ROT ALL', 'all rotten'])(
    '%j writes nothing down of beds unnamed',
    (text) => {
      const { duty, seenOf } = bundled();
      sms(duty, text);
      expect(seenOf()).toEqual([undefined, undefined, undefined]);
      expect(duty.registry.inspections.latest('pit-a')).toBeNull();
      expect(replies(duty)).toHaveLength(1);
    },
  );

  test('FOUND with numbers is an inspection of each bed, without one of the only bed', () => {
    const { duty } = bundled();
    sms(duty, 'FOUND NOTHING 1 2');
    expect(['pit-a', 'pit-b', 'pit-c'].map((bed) => duty.registry.inspections.latest(bed)?.found)).toEqual([
      ['nothing'],
      ['nothing'],
      undefined,
    ]);
    const one = openDuty();
    one.raise('pit-a');
    one.raise('pit-a', { kind: 'damp' });
    one.plan();
    one.deliver();
    expect(sms(one, 'FOUND ROT')).toMatch(/^found: /);
    expect(one.registry.inspections.latest('pit-a')?.found).toEqual(['rot']);
  });

  test('OK once more came since: it is asked which', () => {
    const { duty, seenOf } = bundled();
    const id = duty.raise('pit-b');
    duty.plan();
    duty.deliver();
    duty.fresh();
    expect(sms(duty, 'OK')).toMatch(/several are open/);
    expect(seenOf()).toEqual([undefined, undefined, undefined]);
    expect(replies(duty)[0]?.body.text).toMatch(/^Which one\? 4 Pit B, 1 Pit A, /);
    sms(duty, 'OK ALL');
    expect([...seenOf(), rowOf(duty, id)?.acknowledgement?.by]).toEqual([...ALL, 'Ana']);
  });

  test('OK ALL is of what the sender was told, and nothing else', () => {
    const { duty, seenOf } = bundled();
    expect(sms(duty, 'OK ALL', PHONE.ben)).toMatch(/^no open alarm/);
    expect(seenOf()).toEqual([undefined, undefined, undefined]);
    expect(replies(duty).map(({ to, body }) => [to, body.text])).toEqual([
      [PHONE.ben, 'Thanks. Nothing waits for an answer.'],
    ]);
  });

  test.each(LANGUAGES.map(({ language }) => language))('all in %s', (language) => {
    const { duty, ids } = bundled({
      ...SITE,
      people: [aKeeper('ana', { language }), aKeeper('ben'), aKeeper('cy')],
    });
    const { answers, messages } = CATALOGUES[language];
    expect(sms(duty, messages['say.all'])).toBe(`seen: ${ids.join(', ')}`);
    expect(sms(duty, `${answers.seen.at(-1)} ${answers.all.at(-1)}`)).toBe(`seen: ${ids.join(', ')}`);
  });
});
