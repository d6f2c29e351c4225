import { createHmac } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { secretProblem, signatureOf, verifySignature } from '../../services/senders/signature.js';

const NOW = Date.parse('2026-05-24T15:00:00.999Z');
const SECRET = 'made-up-secret-of-the-tests-0123';
const BODY = '{"line":"Pit A: sand 1.8 C too warm. é"}';

const verified = (otherwise: Partial<Parameters<typeof verifySignature>[0]> = {}): boolean =>
  verifySignature({
    header: signatureOf(SECRET, BODY, NOW),
    body: BODY,
    secret: SECRET,
    now: NOW,
    ...otherwise,
  });

test('the header has the seconds and the MAC of seconds, full stop and body', () => {
  const mac = createHmac('sha256', SECRET).update(`1779634800.${BODY}`, 'utf8').digest('base64');
  expect(signatureOf(SECRET, BODY, NOW)).toBe(`time=1779634800, mac=:${mac}:`);
});

// `printf '1779634800.{}' | openssl dgst -sha256 -hmac made-up-secret-of-the-tests-0123 -binary | base64`
test('the MAC is that of another program', () => {
  expect(signatureOf(SECRET, '{}', NOW)).toBe(
    'time=1779634800, mac=:CANcjiQI3a+3zbslVqKBfV0zKzVb/s60K0qBG1UveOY=:',
  );
});

test('bytes and text of the same body are signed alike', () => {
  expect(signatureOf(SECRET, Buffer.from(BODY), NOW)).toBe(signatureOf(SECRET, BODY, NOW));
  expect(verified({ body: Buffer.from(BODY) })).toBe(true);
});

test.each([-300, -1, 0, 1, 300])('%d s apart is near enough', (apart_s) => {
  expect(verified({ now: NOW + apart_s * 1000 })).toBe(true);
});

test.each([-301, 301, 86_400, Number.NaN, Number.POSITIVE_INFINITY])('%d s apart is too far', (apart_s) => {
  expect(verified({ now: NOW + apart_s * 1000 })).toBe(false);
});

test('the tolerance can be set', () => {
  expect(verified({ now: NOW + 11_000, tolerance_s: 10 })).toBe(false);
  expect(verified({ now: NOW + 10_000, tolerance_s: 10 })).toBe(true);
  expect(verified({ tolerance_s: Number.NaN })).toBe(false);
});

describe('what was not signed so is not believed', () => {
  test.each([
    ['another body', { body: `${BODY} ` }],
    ['an empty body', { body: '' }],
    ['another secret', { secret: `${SECRET}!` }],
    ['no header', { header: undefined }],
    ['an empty header', { header: '' }],
    ['a header of another form', { header: 'sha256=abc' }],
  ])('%s', (_what, otherwise) => {
    expect(verified(otherwise)).toBe(false);
  });

  test('another time with the same MAC', () => {
    const header = signatureOf(SECRET, BODY, NOW).replace('1779634800', '1779634801');
    expect(verified({ header })).toBe(false);
  });

  test('a full stop or digit moved from the body to the time', () => {
    const header = signatureOf(SECRET, `1.${BODY}`, NOW).replace('time=1779634800', 'time=17796348001');
    expect(verified({ header, tolerance_s: Number.POSITIVE_INFINITY })).toBe(false);
  });

  test.each([
    (header: string) => `${header}, mac=:x:`,
    (header: string) => header.replace(', mac', ''),
    (header: string) => header.slice(0, -3),
    (header: string) => header.replace('time=', 'time=-'),
    (header: string) => `${header}\n`,
  ])('a header that was tampered with (%#)', (tamper) => {
    expect(verified({ header: tamper(signatureOf(SECRET, BODY, NOW)) })).toBe(false);
  });

  test('any text as a header, without an error', () => {
    fc.assert(
      fc.property(fc.string(), (header) => !verified({ header })),
      { seed: 11 },
    );
  });
});

test('any body that was signed is verified', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (body) =>
      verified({ header: signatureOf(SECRET, body, NOW), body }),
    ),
    { seed: 12 },
  );
});

test.each(['', 'short', 'a'.repeat(31)])('the secret %j is too short to sign or to verify with', (secret) => {
  expect(() => signatureOf(secret, BODY, NOW)).toThrow(/at least 32 characters, got \d+$/);
  expect(() => verified({ secret })).toThrow(/at least 32 characters/);
  expect(secretProblem(secret)).not.toContain(secret || 'nothing');
});

test.each([Number.NaN, -1, Number.POSITIVE_INFINITY])('the time %d is refused', (now) => {
  expect(() => signatureOf(SECRET, BODY, now)).toThrow('expected a time in ms since 1970');
});
