import { describe, expect, test } from 'vitest';
import { DAY_ms, HOUR_ms, MINUTE_ms } from '../../../services/core/model/time.js';
import { AWAY, anAccess, HOME, PASSWORD } from './an-access.js';

const NEXT = 'another long sentence';

describe('the first steward', () => {
  test('comes by the link, once, and from then on people sign in', async () => {
    const { access, ports, steward } = anAccess();
    expect(ports.standing()).toBe('open');
    const { asker, secret } = await steward();
    expect(asker).toMatchObject({ name: 'wanja', role: 'steward', kind: 'person' });
    expect(ports.ofSession(secret)).toEqual(asker);
    expect(ports.standing()).toBe('sign-in');
    expect(access.firstLink()).toBeUndefined();
  });

  test('where other machines reach the service nothing is open before', () => {
    expect(anAccess({ isOpenBefore: false }).ports.standing()).toBe('first-steward');
  });

  test.each([
    ['a name that is none', { name: 'Wanja M.', password: PASSWORD }, /^name: expected/],
    ['a short password', { name: 'wanja', password: 'elevenchars' }, /^password: expected 12 to 128.*got 11/],
    ['a password of one letter', { name: 'wanja', password: 'a'.repeat(20) }, /5 different/],
    ['the name again', { name: 'wanja', password: 'wanjawanja12' }, /name said again/],
    ['a word with digits', { name: 'wanja', password: 'sweetpotato2026' }, /everybody would try/],
    ['no password', { name: 'wanja' }, /^password: /],
  ])('%s is refused, nobody is let in, and the link holds', async (_what, chosen, sentence) => {
    const { access, ports, registry } = anAccess();
    const link = access.firstLink() ?? '';
    await expect(ports.useLink(link, chosen, HOME)).rejects.toThrow(sentence);
    expect(registry.access.accounts.count()).toBe(0);
    expect(ports.link(link)?.purpose).toBe('first-steward');
  });

  test('a link that was used, is old, is of an earlier start or is none lets nobody in', async () => {
    const { access, ports, pass } = anAccess();
    const earlier = access.firstLink() ?? '';
    const link = access.firstLink() ?? '';
    const chosen = { name: 'wanja', password: PASSWORD };
    for (const secret of [earlier, '', 'x', `${link}x`])
      expect(await ports.useLink(secret, chosen, HOME)).toEqual({ kind: 'wrong' });
    pass(DAY_ms);
    expect(await ports.useLink(link, chosen, HOME)).toEqual({ kind: 'wrong' });
    const fresh = access.firstLink() ?? '';
    // Both at once: one of them is let in.
    const kinds = await Promise.all([ports.useLink(fresh, chosen, HOME), ports.useLink(fresh, chosen, AWAY)]);
    expect(kinds.map(({ kind }) => kind).sort()).toEqual(['in', 'wrong']);
    expect(await ports.useLink(fresh, { name: 'other', password: PASSWORD }, HOME)).toEqual({
      kind: 'wrong',
    });
  });
});

describe('by name and password', () => {
  test('the right one is let in, however its letters are composed', async () => {
    const { ports, somebody, steward } = anAccess();
    await steward();
    const link = await somebody('joseph');
    expect(link.kind).toBe('in');
    const name = 'amina';
    ports.putAccount(name, { shown: 'Amina', role: 'keeper', beds: ['pit-a'], person: null, closed: false });
    await ports.useLink(ports.linkFor(name).secret, { password: 'caf\u00e9 beside the pit' }, HOME);
    expect((await ports.signIn(name, 'cafe\u0301 beside the pit', HOME)).kind).toBe('in');
  });

  test.each([
    ['wanja', `${PASSWORD} `],
    ['wanja', PASSWORD.toUpperCase()],
    ['wanja', ''],
    ['Wanja', PASSWORD],
    ['nobody', PASSWORD],
    ['', ''],
  ])('%j with %j stays out, and is not told why', async (name, password) => {
    const { ports, steward } = anAccess();
    await steward();
    expect(await ports.signIn(name, password, HOME)).toEqual({ kind: 'wrong' });
  });

  test('who was never given a password, or may not sign in any more, stays out', async () => {
    const { ports, steward, somebody } = anAccess();
    await steward();
    const body = { shown: 'J', role: 'technician', beds: [], person: null, closed: false } as const;
    ports.putAccount('joseph', body);
    expect(await ports.signIn('joseph', '', HOME)).toEqual({ kind: 'wrong' });
    const signedIn = await somebody('joseph');
    ports.putAccount('joseph', { ...body, closed: true });
    expect(await ports.signIn('joseph', PASSWORD, HOME)).toEqual({ kind: 'wrong' });
    expect(signedIn.kind === 'in' && ports.ofSession(signedIn.secret)).toBeUndefined();
    expect(() => ports.linkFor('joseph')).toThrow(/nobody who may sign in/);
  });

  test('what was computed at another cost is computed anew', async () => {
    const { ports, registry, steward } = anAccess();
    await steward();
    const { accounts } = registry.access;
    const account = accounts.get('wanja');
    expect(account?.password).toMatch(/^\$scrypt\$ln=1,r=1,p=1\$/);
    expect(JSON.stringify(account)).not.toContain(PASSWORD);
    // [RFC 7914 12], N = 1024, r = 8, p = 16: "password" with the salt "NaCl", its first 32 bytes.
    const known = `$scrypt$ln=10,r=8,p=16$${Buffer.from('NaCl').toString('base64').replace(/=+$/, '')}$${Buffer.from(
      'fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b373162',
      'hex',
    )
      .toString('base64')
      .replace(/=+$/, '')}`;
    if (account) accounts.put({ ...account, password: known });
    expect((await ports.signIn('wanja', 'password', HOME)).kind).toBe('in');
    expect(accounts.get('wanja')?.password).toMatch(/^\$scrypt\$ln=1,/);
  });
});

describe('too many attempts', () => {
  test('make a name wait, longer each time, and never for ever; known places do not wait', async () => {
    const { ports, steward, pass } = anAccess();
    await steward();
    for (let index = 0; index < 5; index += 1)
      expect((await ports.signIn('wanja', 'wrong', AWAY)).kind).toBe('wrong');
    expect(await ports.signIn('wanja', PASSWORD, AWAY)).toEqual({ kind: 'wait', wait_s: 2 });
    pass(2_000);
    expect((await ports.signIn('wanja', 'wrong', AWAY)).kind).toBe('wrong');
    expect(await ports.signIn('wanja', PASSWORD, AWAY)).toEqual({ kind: 'wait', wait_s: 4 });
    expect((await ports.signIn('wanja', PASSWORD, HOME)).kind).toBe('in');
    pass(15 * MINUTE_ms);
    expect((await ports.signIn('wanja', PASSWORD, AWAY)).kind).toBe('in');
  });

  test('many at once are counted before they are looked at', async () => {
    const { ports, steward } = anAccess();
    await steward();
    const tries = Array.from({ length: 12 }, () => ports.signIn('wanja', 'wrong', AWAY));
    const kinds = (await Promise.all(tries)).map(({ kind }) => kind);
    expect(kinds.filter((kind) => kind === 'wrong')).toHaveLength(5);
  });

  test('from one address, whatever the names, make it wait', async () => {
    const { ports, steward } = anAccess();
    await steward();
    for (let index = 0; index < 20; index += 1) await ports.signIn(`guess-${index}`, 'wrong', AWAY);
    expect((await ports.signIn('guess-20', 'wrong', AWAY)).kind).toBe('wait');
    expect((await ports.signIn('guess-20', 'wrong', HOME)).kind).toBe('wrong');
  });

  test('are noted so many an hour, and how many more there were', async () => {
    const { ports, steward, pass } = anAccess();
    await steward();
    for (let index = 0; index < 70; index += 1)
      await ports.signIn(`guess-${index}`, 'x', { ...AWAY, address: `203.0.113.${index}` });
    const noted = () => ports.audit(Number.MAX_SAFE_INTEGER, 500);
    expect(noted().filter(({ who }) => who === 'a stranger')).toHaveLength(60);
    pass(HOUR_ms);
    await ports.signIn('guess', 'x', AWAY);
    expect(noted()[1]).toMatchObject({ who: 'the service', result: '10 times' });
  });
});

describe('a password', () => {
  test('is changed by the one before, and every other session ends', async () => {
    const { ports, steward } = anAccess();
    const first = await steward();
    const second = await ports.signIn('wanja', PASSWORD, AWAY);
    expect(await ports.changePassword(first.asker, 'wrong', NEXT, HOME)).toEqual({ kind: 'wrong' });
    await expect(ports.changePassword(first.asker, PASSWORD, 'short', HOME)).rejects.toThrow(
      /^next: expected/,
    );
    const changed = await ports.changePassword(first.asker, PASSWORD, NEXT, HOME);
    expect(changed.kind).toBe('in');
    for (const { secret } of [first, second as typeof first]) expect(ports.ofSession(secret)).toBeUndefined();
    expect(changed.kind === 'in' && ports.ofSession(changed.secret)?.name).toBe('wanja');
    expect(await ports.signIn('wanja', PASSWORD, HOME)).toEqual({ kind: 'wrong' });
    expect((await ports.signIn('wanja', NEXT, HOME)).kind).toBe('in');
  });

  test('is chosen anew by a link, of which the one before ends', async () => {
    const { ports, steward } = anAccess();
    const { secret } = await steward();
    const [old, link] = [ports.linkFor('wanja').secret, ports.linkFor('wanja').secret];
    expect(ports.link(old)).toBeUndefined();
    expect(ports.link(link)).toEqual({ purpose: 'choose-password', name: 'wanja', shown: 'wanja' });
    expect((await ports.useLink(link, { password: NEXT }, AWAY)).kind).toBe('in');
    expect(ports.ofSession(secret)).toBeUndefined();
    expect(await ports.useLink(link, { password: NEXT }, AWAY)).toEqual({ kind: 'wrong' });
  });
});
