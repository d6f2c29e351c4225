import { expect, test } from 'vitest';
import { checkSiteFile } from '../../../services/core/model/site-file.js';
import { HOUR_ms, MINUTE_ms } from '../../../services/core/model/time.js';
import { AWAY, anAccess, HOME, START } from './an-access.js';

const SITE = {
  version: 1,
  site: { id: 'ridge-station', name: 'Ridge', timezone: 'Africa/Lusaka' },
  people: [
    {
      ...{ id: 'amina', name: 'Amina', language: 'sw' },
      reach: [
        { via: 'webhook', to: 'https://example.org/x' },
        { via: 'sms', to: '+260970000001' },
      ],
    },
  ],
};

const KEEPER = { shown: 'Amina', role: 'keeper', beds: ['pit-a'], closed: false } as const;
const PERSON = { site: 'ridge-station', id: 'amina' };

function withAmina(publicUrl: string | undefined = 'https://store.example/') {
  const opened = anAccess({ publicUrl });
  opened.registry.sites.load(checkSiteFile('site.json', SITE), START);
  opened.ports.putAccount('amina', { ...KEEPER, person: PERSON });
  const sent = () => opened.registry.outbox.due(Number.MAX_SAFE_INTEGER, 9);
  return { ...opened, sent };
}

const secretIn = (body: string): string => /sign-in#(\S+)/.exec(JSON.parse(body).text)?.[1] ?? '';

test('goes to the telephone in the language of its owner, and lets in once, within a quarter of an hour', async () => {
  const { ports, sent, messages, pass } = withAmina();
  expect(ports.sendsLinks).toBe(true);
  ports.sendLink('amina', AWAY);
  expect(messages).toHaveLength(1);
  const [message] = sent();
  expect(message).toMatchObject({ via: 'sms', to: '+260970000001' });
  expect(JSON.parse(message?.body ?? '').text).toMatch(
    /^Kuingia, .* 15, .*: https:\/\/store\.example\/sign-in#/,
  );
  const secret = secretIn(message?.body ?? '');
  expect(ports.link(secret)?.purpose).toBe('sign-in');
  expect((await ports.useLink(secret, {}, HOME)).kind).toBe('in');
  expect((await ports.useLink(secret, {}, HOME)).kind).toBe('wrong');
  pass(1);
  ports.sendLink('amina', AWAY);
  pass(15 * MINUTE_ms);
  expect((await ports.useLink(secretIn(sent()[1]?.body ?? ''), {}, HOME)).kind).toBe('wrong');
});

test('is not sent to nobody, to whoever is no person, may not sign in, asked that messages stop, or asks too often', () => {
  const { ports, sent, registry, pass } = withAmina();
  ports.putAccount('joseph', { ...KEEPER, person: null });
  ports.sendLink('joseph', AWAY);
  ports.sendLink('nobody', AWAY);
  ports.putAccount('amina', { ...KEEPER, person: PERSON, closed: true });
  ports.sendLink('amina', AWAY);
  expect(sent()).toEqual([]);
  ports.putAccount('amina', { ...KEEPER, person: PERSON });
  for (let index = 0; index < 5; index += 1) ports.sendLink('amina', AWAY);
  expect(sent()).toHaveLength(3);
  pass(HOUR_ms);
  registry.answers.stop('sms', '+260970000001', START);
  ports.sendLink('amina', AWAY);
  expect(sent()).toHaveLength(3);
});

test('is not offered where nobody said under which address people reach the service', () => {
  const opened = withAmina('');
  expect(anAccess().ports.sendsLinks).toBe(false);
  expect(opened.sent()).toEqual([]);
});
