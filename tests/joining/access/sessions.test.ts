import { describe, expect, test } from 'vitest';
import { DAY_ms } from '../../../services/core/model/time.js';
import { AWAY, anAccess, HOME, PASSWORD } from './an-access.js';

describe('a session', () => {
  test('ends when it is not used for three weeks, and after three months however much it is used', async () => {
    const { ports, steward, pass } = anAccess();
    const { secret } = await steward();
    pass(20 * DAY_ms);
    expect(ports.ofSession(secret)?.name).toBe('wanja');
    for (let day = 20; day < 80; day += 20) {
      pass(20 * DAY_ms);
      expect(ports.ofSession(secret)?.name).toBe('wanja');
    }
    pass(10 * DAY_ms);
    expect(ports.ofSession(secret)).toBeUndefined();
    const { secret: other } = (await ports.signIn('wanja', PASSWORD, HOME)) as { secret: string };
    pass(21 * DAY_ms);
    expect(ports.ofSession(other)).toBeUndefined();
  });

  test('that was revoked or signed out does not come back', async () => {
    const { ports, steward } = anAccess();
    const { secret, asker } = await steward();
    const other = (await ports.signIn('wanja', PASSWORD, AWAY)) as { secret: string };
    const [one] = ports.sessions('wanja').filter(({ address }) => address === AWAY.address);
    ports.revokeSession(one?.id ?? '', 'wanja');
    expect(ports.ofSession(other.secret)).toBeUndefined();
    expect(() => ports.revokeSession(one?.id ?? '', 'wanja')).toThrow(/no session that holds/);
    ports.signOut(asker);
    expect(ports.ofSession(secret)).toBeUndefined();
  });

  test('whose end, or whose other role, is told to whoever shows what they may do', async () => {
    const { ports, steward, somebody, told } = anAccess();
    const since = (): number => {
      const { changes } = told;
      told.changes = 0;
      return changes;
    };
    const { asker } = await steward();
    expect(since()).toBe(1);
    await somebody('joseph');
    since();
    const body = { shown: 'J', role: 'researcher', beds: [], person: null, closed: false } as const;
    ports.putAccount('joseph', body);
    expect(since()).toBe(1);
    ports.revokeSession(ports.sessions('joseph')[0]?.id ?? '', null);
    expect(since()).toBe(1);
    expect(() => ports.revokeSession('none', null)).toThrow(/no session/);
    expect(() => ports.putAccount('joseph', { ...body, beds: ['pit-a'] })).toThrow(/expected none/);
    expect(since()).toBe(0);
    ports.signOut(asker);
    expect(since()).toBe(1);
  });

  test('of somebody else cannot be revoked, nor found by what is kept of it', async () => {
    const { ports, steward, somebody, registry, database } = anAccess();
    const { secret } = await steward();
    await somebody('joseph');
    const [of] = ports.sessions('wanja');
    expect(() => ports.revokeSession(of?.id ?? '', 'joseph')).toThrow(/no session that holds/);
    expect(ports.ofSession(secret)).toBeDefined();
    const kept = database.prepare("SELECT hex(hash) || ' ' || id FROM session").pluck().all() as string[];
    for (const text of kept.flatMap((row) => row.split(' '))) expect(ports.ofSession(text)).toBeUndefined();
    expect(JSON.stringify(registry.access.sessions.list(0, null, 9))).not.toContain(secret);
  });

  test('too many leave those used last', async () => {
    const { ports, steward, pass } = anAccess();
    const { secret } = await steward();
    for (let index = 0; index < 10; index += 1) {
      pass(1000);
      await ports.signIn('wanja', PASSWORD, HOME);
    }
    expect(ports.sessions('wanja')).toHaveLength(10);
    expect(ports.ofSession(secret)).toBeUndefined();
  });
});

describe('accounts', () => {
  const BODY = { shown: 'Amina', role: 'keeper', beds: ['pit-a'], person: null, closed: false } as const;

  test.each([
    ['Amina', BODY, /^name: /],
    ['amina', { ...BODY, beds: [] }, /^beds: expected the beds that are kept/],
    ['amina', { ...BODY, beds: ['pit-x'] }, /^beds: expected ids of beds, got "pit-x"/],
    ['amina', { ...BODY, role: 'technician' as const }, /^beds: expected none/],
    ['amina', { ...BODY, role: 'gateway' as const, beds: [] }, /^role: .*for machines/],
    ['amina', { ...BODY, person: { site: 'ridge-station', id: 'nobody' } }, /^person: /],
  ])('%j %j is refused', (name, body, sentence) => {
    const { ports } = anAccess();
    expect(() => ports.putAccount(name, body)).toThrow(sentence);
    expect(ports.accounts()).toEqual([]);
  });

  test('the only steward stays one, until there is another who can sign in', async () => {
    const { ports, steward, somebody } = anAccess();
    await steward();
    const body = { shown: 'W', role: 'steward', beds: [], person: null, closed: false } as const;
    for (const change of [{ closed: true }, { role: 'technician' as const }])
      expect(() => ports.putAccount('wanja', { ...body, ...change })).toThrow(/only steward/);
    ports.putAccount('joseph', { ...body, shown: 'J' });
    expect(() => ports.putAccount('wanja', { ...body, closed: true })).toThrow(/only steward/);
    await somebody('joseph', { role: 'steward' });
    ports.putAccount('wanja', { ...body, closed: true });
    expect(ports.standing()).toBe('sign-in');
  });

  test('another role holds at once', async () => {
    const { ports, steward, somebody } = anAccess();
    await steward();
    const signedIn = await somebody('joseph');
    const secret = signedIn.kind === 'in' ? signedIn.secret : '';
    ports.putAccount('joseph', { ...BODY, role: 'researcher', beds: [] });
    expect(ports.ofSession(secret)?.role).toBe('researcher');
  });
});

describe('tokens of machines', () => {
  const BODY = { name: 'station script', role: 'technician', beds: [], days: 30 } as const;

  test('hold until their day or until they are revoked, and are kept as hashes', () => {
    const { ports, database, pass } = anAccess();
    const { secret, token } = ports.makeToken(BODY, 'wanja');
    expect(ports.ofToken(secret)).toMatchObject({
      kind: 'machine',
      name: 'station script',
      role: 'technician',
    });
    const rows = JSON.stringify(database.prepare('SELECT *, hex(hash) FROM machine_token').all());
    expect(rows).not.toContain(secret.slice(-20));
    ports.revokeToken(token.id);
    expect(ports.ofToken(secret)).toBeUndefined();
    expect(() => ports.revokeToken(token.id)).toThrow(/no token that holds/);
    const { secret: later } = ports.makeToken(BODY, 'wanja');
    pass(30 * DAY_ms);
    expect(ports.ofToken(later)).toBeUndefined();
    expect(ports.tokens()).toHaveLength(2);
  });

  test('a session is no token, and a token no session', async () => {
    const { ports, steward } = anAccess();
    const session = await steward();
    const { secret } = ports.makeToken(BODY, 'wanja');
    expect(ports.ofToken(session.secret)).toBeUndefined();
    expect(ports.ofSession(secret)).toBeUndefined();
  });

  test('there are so many at the most', () => {
    const { ports, registry } = anAccess();
    registry.access.atOnce(() => {
      for (let index = 0; index < 200; index += 1) ports.makeToken(BODY, 'wanja');
    });
    expect(() => ports.makeToken(BODY, 'wanja')).toThrow(/at most 200/);
  });
});
