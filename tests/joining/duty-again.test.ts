/** Alarms that late readings take back, bring again or put elsewhere: who hears of it, and what their answer means. */
import { describe, expect, test } from 'vitest';
import { clock, inShort, openDuty, PHONE } from '../support/duty.js';

const numberOf = (duty: ReturnType<typeof openDuty>, id: string) => duty.registry.alarms.get(id)?.number;
const sms = (duty: ReturnType<typeof openDuty>, text: string, id = `sms/${text}/${duty.now()}`) =>
  duty.answers.take({ id, via: 'sms', sender: PHONE.ana, text });

/** Told to Ana as number 1; then late readings put its beginning an hour earlier: another alarm to the file. */
function moved() {
  const duty = openDuty();
  const first = duty.raise('pit-a');
  duty.plan();
  duty.deliver();
  duty.fresh();
  duty.pass(10);
  duty.retell('pit-a', (story) => story.map((change) => ({ ...change, at: change.at - 3_600_000 })));
  const [second] = duty.registry.alarms.open('pit-a');
  duty.plan();
  return { duty, first, second: second?.id ?? '' };
}

describe('an alarm that people take for one they know', () => {
  test('is not told again', () => {
    const { duty, first, second } = moved();
    expect(second).not.toBe(first);
    expect(duty.fresh()).toEqual([]);
  });

  test('keeps its number: nobody else gets it, and it is the one that is answered', () => {
    const { duty, second } = moved();
    const other = duty.raise('pit-b');
    duty.plan();
    expect(numberOf(duty, second)).toBe(1);
    expect(numberOf(duty, other)).toBe(2);
    sms(duty, 'OK 1');
    expect(duty.registry.alarms.get(second)?.acknowledgement?.by).toBe('Ana');
    expect(duty.registry.alarms.get(other)?.acknowledgement).toBeNull();
  });

  test('is the only one that was told: an answer without a number is for it', () => {
    const { duty, second } = moved();
    sms(duty, 'OK');
    expect(duty.registry.alarms.get(second)?.acknowledgement?.by).toBe('Ana');
  });

  test('is known since the first became known', () => {
    const { duty, second } = moved();
    expect(duty.registry.alarms.get(second)?.knownAt).toBe(clock('10:00'));
  });
});

describe('an alarm that is taken back', () => {
  test('is told as that; and when it comes again, as raised', () => {
    const duty = openDuty();
    const id = duty.raise('pit-a');
    duty.plan();
    duty.deliver();
    duty.pass(10);
    const story: unknown[] = [];
    duty.retell('pit-a', (changes) => {
      story.push(...changes);
      return [];
    });
    duty.plan();
    duty.deliver();
    duty.pass(10);
    duty.retell('pit-a', () => story as never);
    expect(duty.registry.alarms.open('pit-a').map((row) => row.id)).toEqual([id]);
    duty.plan();
    expect(inShort(duty.fresh())).toEqual(['ana sms raised', 'ana sms withdrawn', 'ana sms raised']);
  });

  test('after somebody had acknowledged it, and comes again: it is told anew, and an answer counts', () => {
    const duty = openDuty();
    const id = duty.raise('pit-a');
    duty.plan();
    duty.deliver();
    sms(duty, 'OK 1');
    duty.pass(10);
    const story: unknown[] = [];
    duty.retell('pit-a', (changes) => {
      story.push(...changes);
      return [];
    });
    duty.plan();
    duty.deliver();
    duty.pass(10);
    duty.fresh();
    duty.retell('pit-a', () => story as never);
    duty.plan();
    expect(inShort(duty.fresh())).toEqual(['ana sms raised']);
    expect(duty.registry.alarms.get(id)?.acknowledgement).toBeNull();
    duty.deliver();
    sms(duty, `OK ${numberOf(duty, id)}`);
    expect(duty.registry.alarms.get(id)?.acknowledgement?.at).toBe(duty.now());
  });

  test('without that people were told: the acknowledgement stands', () => {
    const duty = openDuty();
    const id = duty.raise('pit-a');
    duty.plan();
    duty.deliver();
    sms(duty, 'OK 1');
    duty.clear('pit-a');
    duty.retell('pit-a', (changes) => changes.filter(({ type }) => type === 'raise'));
    expect(duty.registry.alarms.get(id)?.acknowledgement?.by).toBe('Ana');
  });
});

describe('the number of an alarm that is over', () => {
  test("is nobody else's for a week: an answer that comes late does not meet another bed", () => {
    const duty = openDuty();
    const first = duty.raise('pit-a');
    duty.plan();
    duty.deliver();
    duty.pass(10);
    duty.clear('pit-a');
    const second = duty.raise('pit-b');
    duty.plan();
    expect([numberOf(duty, first), numberOf(duty, second)]).toEqual([1, 2]);
    expect(sms(duty, 'OK 1')).toMatch(/no open alarm/);
    expect(duty.registry.alarms.get(second)?.acknowledgement).toBeNull();
    duty.goTo(clock('10:00', 9));
    const third = duty.raise('pit-c');
    duty.plan();
    expect(numberOf(duty, third)).toBe(1);
  });
});
