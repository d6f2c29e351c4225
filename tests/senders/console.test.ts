import { expect, test } from 'vitest';
import { tell } from '../../services/core/alarms/telling.js';
import type { AlarmEvent } from '../../services/core/alarms/text.js';
import type { Alarm } from '../../services/core/model/alarm.js';
import { createConsole } from '../../services/senders/console.js';
import { anAlarm, at, PIT } from '../core/alarms/an-alarm.js';
import { aMessage } from './array-outbox.js';

async function linesFor(event: AlarmEvent, alarm: Alarm, zone?: string): Promise<string[]> {
  const lines: string[] = [];
  const way = createConsole({ write: (line) => lines.push(line), timeZoneOf: () => zone });
  const { messages } = tell({ alarm, event, bed: PIT, timeZone: 'Africa/Lusaka', webhooks: [] });
  for (const message of messages) await way.send(aMessage(message));
  return lines;
}

test("a raised alarm is one line: event time in the site's zone, bed, what is wrong", async () => {
  expect(await linesFor('raised', anAlarm(), 'Africa/Lusaka')).toEqual([
    '2026-05-24 17:00 +02:00  Pit A: sand 1.8 C too warm.',
  ]);
});

test('without a zone the time is in UTC', async () => {
  expect(await linesFor('raised', anAlarm())).toEqual([
    '2026-05-24 15:00 +00:00  Pit A: sand 1.8 C too warm.',
  ]);
});

test('a cleared alarm shows when it was over', async () => {
  const [line] = await linesFor('cleared', anAlarm({ clearedAt: at('2026-05-26T03:00:00Z') }));
  expect(line).toMatch(/^2026-05-26 03:00 \+00:00 {2}Pit A: over: /);
});

test('a withdrawn alarm shows when it had been raised', async () => {
  const alarm = anAlarm({ clearedAt: at('2026-05-26T03:00:00Z') });
  expect((await linesFor('withdrawn', alarm))[0]).toMatch(/^2026-05-24 15:00 \+00:00 {2}Pit A: taken back: /);
});

test('it stays one line, whatever is in a name', async () => {
  const text = 'Pit\u001b[2J\r\nA: sand too warm.';
  const [line] = await linesFor('raised', anAlarm({ text }));
  expect(line).toBe('2026-05-24 15:00 +00:00  Pit [2J A: sand too warm.');
});

test.each([
  ['no JSON', '{'],
  ['nothing', ''],
  ['null', 'null'],
  ['another event', JSON.stringify({ event: 'shelved', line: 'x', alarm: {} })],
  [
    'no line',
    JSON.stringify({
      event: 'raised',
      alarm: { site: 's', raisedAt: '2026-05-24T15:00:00Z', clearedAt: null },
    }),
  ],
  [
    'a time that is none',
    JSON.stringify({ event: 'raised', line: 'x', alarm: { site: 's', raisedAt: 'now', clearedAt: null } }),
  ],
])('a body with %s is refused and writes nothing', async (_, body) => {
  const lines: string[] = [];
  const way = createConsole({ write: (line) => lines.push(line) });
  await expect(way.send(aMessage({ body }))).rejects.toMatchObject({ code: 'BAD_REQUEST', permanent: true });
  expect(lines).toEqual([]);
});

test('a console that cannot be written to may pass', async () => {
  const way = createConsole({
    write: () => {
      throw new Error('EPIPE');
    },
  });
  const [message] = tell({
    alarm: anAlarm(),
    event: 'raised',
    bed: PIT,
    timeZone: 'Africa/Lusaka',
    webhooks: [],
  }).messages;
  await expect(way.send(aMessage(message))).rejects.toThrow('EPIPE');
});

test.each([
  ['Asia/Kathmandu', '2026-05-24 20:45 +05:45'],
  ['America/St_Johns', '2026-05-24 12:30 -02:30'],
])('in %s it is %s', async (zone, text) => {
  expect((await linesFor('raised', anAlarm(), zone))[0]).toMatch(new RegExp(`^${text.replace('+', '\\+')} `));
});

test('midnight is the hour 00 of the new day', async () => {
  const alarm = anAlarm({ raisedAt: at('2026-05-24T22:00:00Z') });
  expect((await linesFor('raised', alarm, 'Africa/Lusaka'))[0]).toMatch(/^2026-05-25 00:00 \+02:00 /);
});

test('a zone that nobody knows is refused', async () => {
  await expect(linesFor('raised', anAlarm(), 'Mars/Olympus')).rejects.toMatchObject({
    code: 'OUT_OF_DOMAIN',
  });
});
