/** Who waits for an answer while the wall clock is set: as long as before, and nobody is told because of it. */
import { describe, expect, test } from 'vitest';
import { DAY_ms, HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { ClockWatch } from '../../services/joining/clock-watch.js';
import { clock, inShort, openDuty, SITE } from '../support/duty.js';

/** Ana's alarm goes on to Ben after an hour without an answer. */
function escalating() {
  let steady = 0;
  let watch: ClockWatch | undefined;
  const site = { ...SITE, site: { ...SITE.site, escalation: [{ to: 'ben', after_min: 60 }] } };
  const duty = openDuty(site, { counted: (time) => watch?.counted(time) ?? time });
  duty.goTo(clock('10:00'));
  watch = new ClockWatch({ now: duty.now, steady: () => steady });
  const told = (): string[] => {
    duty.plan();
    duty.deliver();
    return inShort(duty.fresh());
  };
  return {
    duty,
    told,
    pass: (minutes: number) => {
      steady += minutes * MINUTE_ms;
      duty.pass(minutes);
    },
    /** Only the wall clock. */
    set: (by_ms: number) => duty.pass(by_ms / MINUTE_ms),
  };
}

describe.each([3 * HOUR_ms, -3 * HOUR_ms, 5 * DAY_ms, -5 * DAY_ms, 40 * MINUTE_ms])('set by %d ms', (by) => {
  test('nobody is told because of it, and the next person as soon as without it', () => {
    const { duty, told, pass, set } = escalating();
    pass(10);
    duty.raise('pit-a');
    expect(told()).toEqual(['ana sms raised']);
    pass(20);
    set(by);
    expect(told()).toEqual([]);
    pass(39);
    expect(told()).toEqual([]);
    pass(1);
    expect(told()).toEqual(['ben sms raised']);
    pass(5);
    set(-by);
    expect(told()).toEqual([]);
  });
});

test('a message that waits for its next attempt waits as long as before, and is as old', () => {
  const { duty, set } = escalating();
  duty.raise('pit-a');
  duty.plan();
  duty.fail('sms', 1);
  const { outbox } = duty.registry;
  const next = (): number => (outbox.nextAttemptAt(duty.now()) ?? Number.NaN) - duty.now();
  const age = (): number => duty.now() - (outbox.due(Number.MAX_SAFE_INTEGER, 1)[0]?.createdAt ?? Number.NaN);
  const before = [next(), age()];
  expect(before[0]).toBe(MINUTE_ms);
  for (const by of [-2 * DAY_ms, 9 * DAY_ms]) {
    set(by);
    outbox.clockSet(by);
    expect([next(), age()]).toEqual(before);
  }
});

test('what was delivered is not dated anew', () => {
  const { duty } = escalating();
  duty.raise('pit-a');
  duty.plan();
  const [message] = duty.fresh();
  duty.deliver();
  duty.registry.outbox.clockSet(DAY_ms);
  expect(duty.posted()[0]?.at).toBe(message?.at);
});
