import { afterEach, describe, expect, test } from 'vitest';
import type { EmailOptions } from '../../services/senders/email.js';
import { aLetter, PASSWORD, refusalBy, USER, wayTo } from './a-letter.js';
import { type Behaviour, MailServer } from './mail-server.js';
import { selfSigned } from './self-signed.js';

let server: MailServer;
afterEach(() => server?.stop());

const start = async (behaviour: Behaviour = {}): Promise<void> => {
  server = await MailServer.start(behaviour);
};

const way = (scheme?: string, otherwise?: Partial<EmailOptions>) => wayTo(server, scheme, otherwise);
const refusalOf = (scheme?: string, otherwise?: Partial<EmailOptions>) =>
  refusalBy(server, scheme, otherwise);

describe('TLS and the password', () => {
  test('TLS at once, with user and password', async () => {
    await start({ secure: true, password: PASSWORD });
    await way(`smtps://${USER}@`).send(aLetter());
    expect(server.letters).toMatchObject([{ tls: true, user: 'alarms' }]);
  });

  test('STARTTLS where it is asked for', async () => {
    await start({ password: PASSWORD });
    await way(`smtp://${USER}@`, { alwaysTls: true }).send(aLetter());
    expect(server.letters).toMatchObject([{ tls: true, user: 'alarms' }]);
  });

  test('on this machine STARTTLS is not needed, even where its certificate is not known', async () => {
    await start();
    await way('smtp://', { ca: selfSigned().cert }).send(aLetter());
    expect(server.letters).toMatchObject([{ tls: false }]);
  });

  test('a server without STARTTLS gets neither password nor letter', async () => {
    await start({ offerTls: false, password: PASSWORD });
    const error = await refusalOf(`smtp://${USER}@`, { alwaysTls: true });
    expect(error).toMatchObject({ code: 'RECEIVER_UNAVAILABLE', permanent: false });
    expect(error.message).toMatch(/: STARTTLS refused: 500 /);
    expect(server.letters).toEqual([]);
  });

  test.each([
    ['that is not known', { secure: true }, 'smtps://', { ca: selfSigned().cert }],
    ['that is not known, after STARTTLS', {}, 'smtp://', { ca: selfSigned().cert, alwaysTls: true }],
  ])('a certificate %s may pass', async (_what, behaviour, scheme, otherwise) => {
    await start(behaviour);
    const error = await refusalOf(scheme, otherwise);
    expect(error).toMatchObject({ permanent: false });
    expect(error.message).toMatch(
      /^e-mail 127\.0\.0\.1:\d+: TLS trouble: certificate not trusted, it is self-signed \(DEPTH_ZERO_SELF_SIGNED_CERT\)$/,
    );
    expect(server.letters).toEqual([]);
  });

  test("another machine's certificate may pass", async () => {
    await start({ secure: true, certificate: selfSigned('other.example') });
    expect((await refusalOf('smtps://')).message).toMatch(/: TLS trouble: certificate of another host /);
  });

  test('a server that speaks no TLS where it should at once', async () => {
    await start();
    const error = await refusalOf('smtps://');
    expect(error).toMatchObject({ permanent: false });
    expect(error.message).toMatch(/: TLS trouble: no TLS on this port /);
  });

  test('a wrong password may pass, and is not repeated though the server does', async () => {
    await start({ secure: true, password: 'another' });
    const error = await refusalOf(`smtps://${USER}@`);
    expect(error).toMatchObject({ code: 'RECEIVER_UNAVAILABLE', permanent: false });
    expect(error.message).toMatch(/: login refused: .*535 5\.7\.8 no, not with \[hidden\]$/);
  });

  test('a server that takes no login is not handed the letter without one', async () => {
    await start({ offerLogin: false });
    const error = await refusalOf(`smtp://${USER}@`);
    expect(error).toMatchObject({ permanent: false });
    expect(error.message).toMatch(/: login refused: /);
    expect(server.letters).toEqual([]);
  });

  test('no password where one is asked for may pass', async () => {
    await start({ secure: true, password: PASSWORD });
    expect(await refusalOf('smtps://')).toMatchObject({ permanent: false });
  });
});
