/** Answers by short message in the audit trail: which person of the description, from which number, what came of it. */
import { randomUUID } from 'node:crypto';
import { expect, test } from 'vitest';
import { type Duty, openDuty, PHONE } from '../support/duty.js';

const take = (duty: Duty, text: string, sender: string = PHONE.ana, id: string = randomUUID()): string =>
  duty.answers.take({ id, via: 'sms', sender, text });

function told(): { duty: Duty; alarm: string } {
  const duty = openDuty();
  const alarm = duty.raise('pit-a');
  duty.plan();
  duty.deliver();
  return { duty, alarm };
}

const trailOf = (duty: Duty) => duty.registry.access.audit.list(Number.MAX_SAFE_INTEGER, 99);

test('each of a known person is noted, whatever it came to', () => {
  const { duty, alarm } = told();
  for (const text of ['OK 1', 'what is this', 'STOP']) take(duty, text);
  take(duty, 'OK 9', PHONE.ben);
  expect(trailOf(duty).map(({ who, what, result }) => [who, what, result])).toEqual([
    ['ridge/ben', 'OK 9', 'no open alarm has the number 9'],
    ['ridge/ana', 'STOP', expect.stringContaining('asked that messages stop')],
    ['ridge/ana', 'what is this', expect.stringMatching(/^not understood/)],
    ['ridge/ana', 'OK 1', `seen: ${alarm}`],
  ]);
  expect(trailOf(duty).at(-1)).toMatchObject({
    ...{ how: 'short message', address: PHONE.ana, did: 'answer', at: duty.now() },
  });
});

test('one that comes again is noted once; an unknown sender changes nothing, and fills no trail', () => {
  const { duty } = told();
  for (let time = 0; time < 2; time += 1) take(duty, 'OK 1', PHONE.ana, 'same');
  for (let time = 0; time < 20; time += 1) take(duty, 'OK 1', '+260970009999');
  expect(trailOf(duty)).toHaveLength(1);
});

test('a long one is cut, and one that cannot be noted is not acted upon', () => {
  const { duty, alarm } = told();
  take(duty, `OK 1 ${'x'.repeat(2000)}`);
  expect(trailOf(duty)[0]?.what).toHaveLength(300);
  duty.database.exec(
    "CREATE TRIGGER full BEFORE INSERT ON audit BEGIN SELECT RAISE(ABORT, 'disk full'); END",
  );
  expect(() => take(duty, 'OK 1')).toThrow('disk full');
  expect(duty.registry.alarms.get(alarm)?.acknowledgement).toBeNull();
});
