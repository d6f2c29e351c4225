/** What an e-mail says that a short message cannot: times by the site's clock, and the degree sign. */
import { expect, test } from 'vitest';
import { septetsOf } from '../../services/core/alarms/septets.js';
import { aBed, aKeeper, clock, openDuty, PHONE, SITE } from '../support/duty.js';

const HEATING = { evidence: { excess_C: 1.8, onsetAt: clock('00:30') } };
const MAIL = { hasWay: (via: string) => via === 'email' };

const named = (name: string, language = 'en') => ({
  ...SITE,
  beds: ['pit-a', 'pit-b'].map((id) => aBed(id, { name: id === 'pit-a' ? name : 'Pit B' })),
  people: [aKeeper('ana', { language })],
});

test.each([
  ['en', 'sand 1.8 °C too warm'],
  ['fr', 'sable trop chaud de 1,8 °C'],
  ['am', 'አሸዋው በ1.8 °C ሞቋል'],
])('of one alarm in %s: its text, its subject and its evidence', (language, words) => {
  const duty = openDuty(named('Pit 2 C', language), MAIL);
  duty.raise('pit-a', HEATING);
  duty.plan();
  const [{ body } = { body: undefined }] = duty.fresh();
  expect(body?.subject).toContain(words);
  expect(body?.longText.startsWith('Pit 2 C')).toBe(true);
  expect(body?.longText).toContain(words);
  expect(body?.longText).toContain('it began about 2026-06-01 00:30 +02:00');
  expect(body?.longText).toContain('It was established by 2026-06-01 10:00 +02:00.');
  expect(body?.longText.replaceAll('Pit 2 C', '')).not.toMatch(/\d C\b|\dZ/);
});

test('of several: each of its lines', () => {
  const duty = openDuty(named('Pit 2 C'), MAIL);
  const check = { ...HEATING, action: 'check', priority: 'medium' } as const;
  for (const bed of ['pit-a', 'pit-b']) duty.raise(bed, check);
  for (const bed of ['pit-a', 'pit-b']) duty.raise(bed, { ...check, kind: 'damp' });
  duty.plan();
  duty.deliver();
  duty.fresh();
  duty.goTo(duty.plan() ?? 0);
  duty.plan();
  const [{ body } = { body: undefined }] = duty.fresh();
  expect(body?.event).toBe('bundle');
  expect(body?.longText).toMatch(/: sand 1\.8 °C too warm\./);
  expect(body?.longText.replaceAll('Pit 2 C', '')).not.toMatch(/\d C\b/);
});

test('a short message stays in its alphabet', () => {
  const duty = openDuty(named('Pit 2 C'));
  duty.raise('pit-a', HEATING);
  duty.plan();
  const [message] = duty.fresh();
  expect([message?.via, message?.to]).toEqual(['sms', PHONE.ana]);
  expect(message?.body.text).toMatch(/^Pit 2 C: sand 1\.8 C too warm\./);
  expect(septetsOf(message?.body.text ?? '')).toBeLessThanOrEqual(160);
});
