/** Links by which people answer: what is signed, for how long it holds, and that it works once. */
import { describe, expect, test } from 'vitest';
import { DAY_ms } from '../../services/core/model/time.js';
import { AnswerLinks } from '../../services/joining/answer-links.js';
import { codeOf } from '../core/physics/refused.js';
import { openDuty, SITE } from '../support/duty.js';
import { temporaryDirectory } from '../support/open.js';

const tokenOf = (url: string): string => new URL(url).searchParams.get('t') ?? '';

function made(publicUrl = 'https://store.example') {
  const duty = openDuty(SITE, { publicUrl });
  const alarm = duty.raise('pit-a');
  const url = duty.links.make(alarm, 'ana');
  return { duty, alarm, url, token: tokenOf(url) };
}

test('a link names the alarm and the person, and holds for a week', () => {
  const { duty, alarm, url, token } = made();
  expect(url).toMatch(/^https:\/\/store\.example\/answer\?t=[A-Za-z0-9_-]+\.[A-Za-z0-9_-]+$/);
  expect(duty.links.read(token)).toMatchObject({ alarm, person: 'ana', until: duty.now() + 7 * DAY_ms });
  duty.goTo(duty.now() + 7 * DAY_ms - 1);
  expect(duty.links.read(token).alarm).toBe(alarm);
  duty.pass(1);
  expect(codeOf(() => duty.links.read(token))).toBe('NOT_FOUND');
});

test('an address that ends in a slash, and one below another', () => {
  expect(made('https://store.example/').url).toMatch(/^https:\/\/store\.example\/answer\?t=/);
  expect(made('https://store.example/sand/').url).toMatch(/^https:\/\/store\.example\/sand\/answer\?t=/);
});

test('two links for one alarm are two', () => {
  const { duty, alarm, token } = made();
  const other = tokenOf(duty.links.make(alarm, 'ana'));
  expect(duty.links.read(other).id).not.toBe(duty.links.read(token).id);
});

test('is not shorter than its address may be', () => {
  const { duty } = made();
  const longest = `${'s'.repeat(32)}.${'b'.repeat(32)}.inspection-due.service.${'p'.repeat(32)}.20260601T080000Z`;
  expect(tokenOf(duty.links.make(longest, 'k'.repeat(32))).length).toBeLessThan(1500);
});

test('is read after a restart, and by no other service', () => {
  const directory = temporaryDirectory();
  const before = openDuty(SITE, { directory });
  const token = tokenOf(before.links.make('a', 'ana'));
  before.close();
  const after = openDuty(SITE, { directory });
  expect(after.links.read(token).person).toBe('ana');
  expect(codeOf(() => made().duty.links.read(token))).toBe('NOT_FOUND');
});

describe('what is not read', () => {
  const forge = (token: string, place: number, value: unknown): string => {
    const [content = '', signature] = token.split('.');
    const parts = JSON.parse(Buffer.from(content, 'base64url').toString()) as unknown[];
    return `${Buffer.from(JSON.stringify(parts.with(place, value))).toString('base64url')}.${signature}`;
  };
  test.each<[string, (token: string) => string]>([
    ['nothing', () => ''],
    ['a word', () => 'token'],
    ['dots', () => '..'],
    ['no signature', (token) => `${token.split('.')[0]}.`],
    ['half a signature', (token) => token.slice(0, -20)],
    ['a part more', (token) => `${token}.x`],
    ['another alarm', (token) => forge(token, 1, 'ridge.pit-b.heating.unpack.x')],
    ['another person', (token) => forge(token, 2, 'ben')],
    ['a longer time', (token) => forge(token, 3, Number.MAX_SAFE_INTEGER)],
    ['another use', (token) => forge(token, 0, 'xxxxxxxxxxxx')],
    ['no JSON', (token) => `${Buffer.from('no').toString('base64url')}.${token.split('.')[1]}`],
  ])('%s', (_, edit) => {
    const { duty, token } = made();
    expect(codeOf(() => duty.links.read(edit(token)))).toBe('NOT_FOUND');
  });
});

test('the secret is made once and is not in a link', () => {
  const { duty, token } = made();
  const secret = duty.registry.own.getOrMake('answer-link-secret', () => 'another');
  expect(secret).not.toBe('another');
  expect(Buffer.from(secret, 'base64')).toHaveLength(32);
  expect(token).not.toContain(secret.slice(0, 12));
  expect(new AnswerLinks(duty.registry, 'http://x', duty.now).read(token).person).toBe('ana');
});
