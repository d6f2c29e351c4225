import { describe, expect, test } from 'vitest';
import { PHOTO_LIMITS } from '../../services/core/model/photo.js';
import { day, type LedgerApp, ledgerApp, ledgerSite, look, uuid } from '../support/ledger.js';
import { problemOfAnswer } from './answers.js';

const JPEG = Buffer.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3]);
const at = (name: string, inspection = uuid(1)): string => `/api/inspections/${inspection}/photos/${name}`;

const put = (app: LedgerApp, url: string, payload: Buffer, type = 'image/jpeg') =>
  app.app.inject({ method: 'PUT', url, payload, headers: { 'content-type': type } });

async function withLook(): Promise<LedgerApp> {
  const app = await ledgerApp({ site: ledgerSite({ filled: day(0) }) });
  app.goTo(10);
  await app.post('/api/beds/pit-t/inspections', look(1, { photos: ['a.jpg'] }));
  return app;
}

describe('a picture of an inspection', () => {
  test('is kept, listed, and given back byte for byte as what it is', async () => {
    const app = await withLook();
    const kept = await put(app, at('a.jpg'), JPEG, 'image/png');
    expect([kept.statusCode, kept.json()]).toEqual([
      201,
      { name: 'a.jpg', mediaType: 'image/jpeg', size_bytes: 7 },
    ]);
    expect((await app.get(at('').slice(0, -1))).json()).toEqual([kept.json()]);
    const file = await app.get(at('a.jpg'));
    expect(file.headers).toMatchObject({ 'content-type': 'image/jpeg', 'x-content-type-options': 'nosniff' });
    expect(file.rawPayload.equals(JPEG)).toBe(true);
    expect(app.reported).toEqual([]);
  });

  test('sent twice is one; other bytes under its name are refused', async () => {
    const app = await withLook();
    await put(app, at('a.jpg'), JPEG);
    expect((await put(app, at('a.jpg'), JPEG)).statusCode).toBe(200);
    problemOfAnswer(await put(app, at('a.jpg'), Buffer.concat([JPEG, JPEG])), 409);
    expect((await app.get(at('a.jpg'))).rawPayload.equals(JPEG)).toBe(true);
  });

  test('is what its first bytes say, whatever it is called', async () => {
    const app = await withLook();
    for (const bytes of [
      Buffer.from('<svg onload="x">'),
      Buffer.from('GIF89a'),
      Buffer.from('%PDF'),
      Buffer.alloc(0),
    ])
      expect(problemOfAnswer(await put(app, at('a.jpg'), bytes), 400).detail).toMatch(
        /expected JPEG, PNG or WebP/,
      );
    problemOfAnswer(await put(app, at('a.jpg'), JPEG, 'text/html'), 415);
    problemOfAnswer(await put(app, at('a.jpg'), JPEG, 'application/json'), 415);
    problemOfAnswer(await app.get(at('a.jpg')), 404);
  });

  test('is bounded in size, name and number', async () => {
    const app = await withLook();
    const large = Buffer.concat([JPEG, Buffer.alloc(PHOTO_LIMITS.one_bytes)]);
    problemOfAnswer(await put(app, at('a.jpg'), large), 413);
    problemOfAnswer(await put(app, at('..%2Fa.jpg'), JPEG), 400);
    for (let number = 0; number < 20; number += 1) await put(app, at(`${number}.jpg`), JPEG);
    expect(problemOfAnswer(await put(app, at('one-more.jpg'), JPEG), 400).detail).toMatch(/at most 20/);
    expect((await put(app, at('3.jpg'), JPEG)).statusCode).toBe(200);
  });

  test('belongs to an inspection that is there', async () => {
    const app = await withLook();
    problemOfAnswer(await put(app, at('a.jpg', uuid(9)), JPEG), 404);
    problemOfAnswer(await app.get(`/api/inspections/${uuid(9)}/photos`), 404);
  });
});
