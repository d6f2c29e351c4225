import { describe, expect, test } from 'vitest';
import { hashForBroker, isOfHash } from '../../../services/joining/access/device-hash.js';
import { DeviceSecretDesk } from '../../../services/joining/access/device-secrets.js';
import { SHORT_SEASON, siteOf } from '../../support/season.js';
import { openStation } from '../../support/station.js';
import { START } from './an-access.js';

const P01 = { kind: 'probe', site: 'test-ridge', id: 'p01' } as const;
const USER = 'test-ridge.p01';

function aDesk() {
  const station = openStation();
  station.load(siteOf(SHORT_SEASON));
  let now = START;
  const desk = new DeviceSecretDesk(station.registry, () => now);
  return {
    ...{ desk, ...station },
    show: (user: string | undefined, secret: string | undefined) =>
      desk.admit(user, secret === undefined ? undefined : Buffer.from(secret)),
    pass: (span_ms: number) => {
      now += span_ms;
    },
  };
}

test('a secret is made by chance, kept as a hash alone, and lets its device in', () => {
  const { desk, show, database } = aDesk();
  const made = desk.make(P01);
  expect(made).toMatchObject({ user: USER, isRenewal: false, isDescribed: true, madeAt: START });
  expect(made.secret).toMatch(/^[\w-]{43}$/);
  expect(desk.make({ ...P01, id: 'p02' }).secret).not.toBe(made.secret);
  const row = JSON.stringify(database.prepare('SELECT * FROM device_secret').all());
  expect(row).toContain('$7$101$');
  expect(row).not.toContain(made.secret);
  expect(show(USER, made.secret)).toEqual({ name: USER, device: P01, kept: expect.stringContaining('$7$') });
  expect(desk.list('test-ridge')).toEqual([
    { user: USER, kind: 'probe', id: 'p01', madeAt: START },
    { user: 'test-ridge.p02', kind: 'probe', id: 'p02', madeAt: START },
  ]);
});

test.each([
  ['nobody', undefined, undefined],
  ['no secret', USER, undefined],
  ['an empty one', USER, ''],
  ['that of another', USER, 'other'],
  ['the probe alone', 'p01', 'own'],
  ['another site', 'other.p01', 'own'],
  ['another case', USER.toUpperCase(), 'own'],
  ['a blank after it', USER, 'own '],
])('%s lets nobody in', (_what, user, shown) => {
  const { desk, show } = aDesk();
  const own = desk.make(P01).secret;
  const other = desk.make({ ...P01, id: 'p02' }).secret;
  expect(show(user, shown?.replace('own', own).replace('other', other))).toBeUndefined();
  expect(show(USER, own)).toBeDefined();
});

test('renewed, the one of before holds no more, nor does whoever came in by it', () => {
  const { desk, show, pass } = aDesk();
  const before = desk.make(P01).secret;
  const speaker = show(USER, before);
  const changes = desk.changes();
  expect(speaker && desk.isOver(speaker)).toBe(false);
  pass(1_000);
  const made = desk.make(P01);
  expect(made).toMatchObject({ isRenewal: true, madeAt: START + 1_000 });
  expect([show(USER, before), speaker && desk.isOver(speaker)]).toEqual([undefined, true]);
  expect(show(USER, made.secret)).toBeDefined();
  expect(desk.changes()).not.toBe(changes);
  expect(desk.count()).toBe(1);
});

test('revoked, it holds no more; a second time there is none', () => {
  const { desk, show } = aDesk();
  const { secret } = desk.make(P01);
  const speaker = show(USER, secret);
  const changes = desk.changes();
  desk.revoke(P01);
  expect([show(USER, secret), desk.has(USER), speaker && desk.isOver(speaker)]).toEqual([
    undefined,
    false,
    true,
  ]);
  expect(desk.changes()).not.toBe(changes);
  expect(() => desk.revoke(P01)).toThrow(
    expect.objectContaining({ code: 'NOT_FOUND', message: expect.stringContaining('"p01"') }),
  );
});

test('whoever came in without a secret of a device stays', () => {
  expect(aDesk().desk.isOver({ name: 'station' })).toBe(false);
});

test('a lamp is another device than a probe of its name', () => {
  const { desk, show } = aDesk();
  const lamp = { ...P01, kind: 'lamp' } as const;
  const made = desk.make(lamp);
  expect(made).toMatchObject({ user: 'test-ridge.lamp.p01', isDescribed: true });
  expect(show('test-ridge.lamp.p01', made.secret)?.device).toEqual(lamp);
  expect(show(USER, made.secret)).toBeUndefined();
});

describe('what is refused, and keeps nothing', () => {
  test.each([
    [{ ...P01, site: 'nowhere' }, 'NOT_FOUND', /no site has the id "nowhere"/],
    [{ ...P01, id: 'P01' }, 'BAD_REQUEST', /probe: expected 1 to 32 of a-z/],
    [{ ...P01, id: 'p01:x' }, 'BAD_REQUEST', /got "p01:x"/],
    [{ ...P01, id: '' }, 'BAD_REQUEST', /probe/],
  ])('%j', (device, code, message) => {
    const { desk } = aDesk();
    expect(() => desk.make(device)).toThrow(
      expect.objectContaining({ code, message: expect.stringMatching(message) }),
    );
    expect(desk.count()).toBe(0);
  });

  test('one that no description has is made all the same, and told apart', () => {
    expect(aDesk().desk.make({ ...P01, id: 'p77' })).toMatchObject({ isDescribed: false });
  });
});

describe('a hash as Mosquitto has it', () => {
  // Written by `mosquitto_passwd -b` of Mosquitto 2.0.
  const WRITTEN =
    '$7$101$KV1wadIfUGlFpvXv$AmmvNDRNAR+k2+mCZ4XV/nx07PafWC/SsItMwjcEgd0bCMf39Cgm+247kvwMeDe4tedkHd6LktxTbHQib1J6Kg==';

  test('of another program is read', () => {
    expect(isOfHash(Buffer.from('dry sand'), WRITTEN)).toBe(true);
    expect(isOfHash(Buffer.from('wet sand'), WRITTEN)).toBe(false);
  });

  test.each(['', '$6$c2FsdA==$aGFzaA==', '$7$0$c2FsdA==$aGFzaA==', '$7$101$$', WRITTEN.slice(0, -4), 'x'])(
    '%j is of no secret',
    (text) => expect(isOfHash(Buffer.from(''), text)).toBe(false),
  );

  test('is salted', () => {
    expect(hashForBroker('dry sand')).not.toBe(hashForBroker('dry sand'));
  });
});
