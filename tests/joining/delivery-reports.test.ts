/** What the network says of a message after it has taken it, over a real database. */
import { expect, test } from 'vitest';
import { noteReport } from '../../services/joining/delivery-reports.js';
import { inShort, openDuty } from '../support/duty.js';

function sent() {
  const duty = openDuty();
  duty.raise('pit-a');
  duty.plan();
  duty.deliver();
  const [message, ...others] = duty.fresh();
  expect(others).toEqual([]);
  duty.pass(2);
  return { duty, key: message?.key ?? '' };
}

test('what did not arrive counts as not told: the next way is used at once, and it is told once', () => {
  const { duty, key } = sent();
  duty.plan();
  expect(duty.fresh()).toEqual([]);
  noteReport(duty.registry, { key, ok: false }, duty.now());
  expect(duty.registry.outbox.statusOf(key)).toMatchObject({
    ...{ deliveredAt: null, givenUpAt: duty.now(), receivedAt: null },
    error: expect.stringMatching(/could not bring it/),
  });
  duty.plan();
  duty.deliver();
  duty.plan();
  expect(inShort(duty.fresh())).toEqual(['ana email raised']);
});

test('what arrived stands, whatever is said of it later', () => {
  const { duty, key } = sent();
  noteReport(duty.registry, { key, ok: true }, duty.now());
  const receivedAt = duty.now();
  duty.pass(5);
  noteReport(duty.registry, { key, ok: true }, duty.now());
  noteReport(duty.registry, { key, ok: false }, duty.now());
  expect(duty.registry.outbox.statusOf(key)).toMatchObject({ receivedAt, givenUpAt: null });
  duty.plan();
  expect(duty.fresh()).toEqual([]);
});

test('of a message that nobody knows it does nothing', () => {
  const { duty } = sent();
  for (const ok of [true, false]) noteReport(duty.registry, { key: 'none', ok }, duty.now());
  duty.plan();
  expect(duty.fresh()).toEqual([]);
});

test('a drill tells when it was handed over and when it was received', () => {
  const duty = openDuty();
  const { id } = duty.station.inTransaction(() => duty.drills.start('pit-a', 'Technician'));
  duty.pass(1);
  duty.deliver();
  duty.pass(1);
  const [sms] = duty.fresh().filter(({ via }) => via === 'sms');
  noteReport(duty.registry, { key: sms?.key ?? '', ok: true }, duty.now());
  const times = duty.drills
    .get(id)
    .messages.map(({ via, after_s, received_s }) => [via, after_s, received_s]);
  expect(times).toContainEqual(['sms', 60, 120]);
  expect(times).toContainEqual(['email', 60, null]);
});
