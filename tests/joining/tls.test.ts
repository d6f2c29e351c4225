/** TLS by the files of a certificate: a real service, real clients, and files that are renewed while it runs. */
import { copyFileSync, writeFileSync } from 'node:fs';
import { Agent, request } from 'node:https';
import { join } from 'node:path';
import { connect as connectTls, type TLSSocket } from 'node:tls';
import { connectAsync } from 'mqtt';
import { afterAll, beforeAll, describe, expect, onTestFinished, test, vi } from 'vitest';
import { lockDirectory } from '../../services/archive/index.js';
import { openTls } from '../../services/joining/tls-files.js';
import { serve } from '../../services/serve.js';
import { readServeSettings, type ServeFlags } from '../../services/settings.js';
import { type Certificate, selfSigned } from '../services/certificate.js';
import { temporaryDirectory } from '../support/open.js';

const READINGS = 'sandlarder/v1/test-ridge/probes/p01/readings';

/** How often a service looks at its files, ms. */
const LOOK_ms = 5_000;

let certificates: [Certificate, Certificate, Certificate];

beforeAll(async () => {
  certificates = [await selfSigned(), await selfSigned(), await selfSigned()];
});

afterAll(() => Promise.all(certificates.map((one) => one.dispose())));

/** Certificate and key in the place where a service was told that they are. */
function aPlace() {
  const folder = temporaryDirectory();
  const [cert, key] = [join(folder, 'cert.pem'), join(folder, 'key.pem')];
  return {
    ...{ cert, key },
    put: (from: Certificate) => {
      copyFileSync(from.key, key);
      copyFileSync(from.certificate, cert);
    },
  };
}

const fingerprintOf = (socket: TLSSocket): string => socket.getPeerCertificate().fingerprint256;

/** What a new connection is shown, and whether it is this certificate and no other. */
async function shownAt(port: number, { pem }: Certificate): Promise<boolean> {
  const socket = connectTls({ port, host: '127.0.0.1', ca: pem });
  return new Promise((resolve) => {
    socket.once('secureConnect', () => {
      socket.destroy();
      resolve(true);
    });
    socket.once('error', () => resolve(false));
  });
}

/** A certificate of its own, the files of which are looked at when the test says so. */
async function served(first: Certificate) {
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
  onTestFinished(() => void vi.useRealTimers());
  const place = aPlace();
  place.put(first);
  const said: string[] = [];
  const service = await startService(
    { tlsCert: place.cert, tlsKey: place.key, mqttsListen: '127.0.0.1:0' },
    (line) => said.push(line),
  );
  const mqttsPort = Number(/mqtts:\/\/127\.0\.0\.1:(\d+)/.exec(said.join('\n'))?.[1]);
  const httpsPort = Number(new URL(service.httpUrl).port);
  return {
    ...{ ...place, said, service, mqttsPort, httpsPort },
    look: () => vi.advanceTimersByTime(LOOK_ms),
    /** Whether both listeners show this certificate to who comes now. */
    shows: async (one: Certificate) => [await shownAt(httpsPort, one), await shownAt(mqttsPort, one)],
  };
}

async function startService(flags: Partial<ServeFlags>, log: (line: string) => void = () => undefined) {
  const data = temporaryDirectory();
  const all = { data, listen: '127.0.0.1:0', mqttListen: '127.0.0.1:0', ...flags };
  const service = await serve({ settings: readServeSettings(all, {}), tellConsole: () => undefined, log });
  onTestFinished(() => service.close());
  return service;
}

/** By one connection that stays. */
function standing(port: number, { pem }: Certificate) {
  const agent = new Agent({ keepAlive: true, maxSockets: 1, ca: pem });
  onTestFinished(() => agent.destroy());
  return () =>
    new Promise<{ status: number | undefined; shown: string; isReused: boolean }>((resolve, reject) => {
      const asked = request({ host: '127.0.0.1', port, path: '/api/health', agent }, (answer) => {
        const { statusCode: status, socket } = answer;
        const shown = fingerprintOf(socket as TLSSocket);
        answer.resume().once('end', () => resolve({ status, shown, isReused: asked.reusedSocket }));
      });
      asked.once('error', reject).end();
    });
}

test('a renewed certificate is shown to who comes, what stands goes on, and a broken one changes nothing', async () => {
  const [first, second, third] = certificates;
  const { put, cert, look, shows, said, service, httpsPort, mqttsPort } = await served(first);
  expect(service.httpUrl).toMatch(/^https:/);
  await expect(fetch(service.httpUrl.replace('https', 'http'))).rejects.toThrow();
  expect(await shows(first)).toEqual([true, true]);
  expect(await shows(second)).toEqual([false, false]);

  const ask = standing(httpsPort, first);
  const before = await ask();
  expect(before).toMatchObject({ status: 200, isReused: false });
  const probe = await connectAsync(`mqtts://127.0.0.1:${mqttsPort}`, { ca: first.pem, keepalive: 0 });
  onTestFinished(() => probe.endAsync(true));
  let closed = 0;
  probe.on('close', () => {
    closed += 1;
  });
  const publish = () => probe.publishAsync(READINGS, '[{"n":"temperature","u":"Cel","v":21.4}]', { qos: 1 });
  await publish();

  put(second);
  look();
  expect(said.at(-1)).toMatch(/^TLS: the certificate .*cert\.pem was renewed/);
  expect(await shows(second)).toEqual([true, true]);
  expect(await shows(first)).toEqual([false, false]);
  await publish();
  expect(await ask()).toEqual({ ...before, isReused: true });
  expect(closed).toBe(0);

  for (const [what, break_] of [
    ['no PEM', () => writeFileSync(cert, 'sand')],
    ['nothing', () => writeFileSync(cert, '')],
    ['that of another key', () => copyFileSync(third.certificate, cert)],
  ] as const) {
    break_();
    look();
    expect(said.at(-1), what).toMatch(/^TLS: expected a certificate in .*; the one before stays in use$/);
    expect(await shows(second), what).toEqual([true, true]);
  }
  await publish();

  put(third);
  look();
  expect(await shows(third)).toEqual([true, true]);
  await publish();
  expect(closed).toBe(0);
});

describe('at the start', () => {
  test.each<[string, (place: ReturnType<typeof aPlace>) => void]>([
    ['no files', () => undefined],
    [
      'a certificate of another key',
      (place) => {
        place.put(certificates[0]);
        copyFileSync(certificates[1].certificate, place.cert);
      },
    ],
    [
      'a key that is none',
      (place) => {
        place.put(certificates[0]);
        writeFileSync(place.key, 'sand');
      },
    ],
    [
      'certificate and key changed about',
      (place) => {
        copyFileSync(certificates[0].certificate, place.key);
        copyFileSync(certificates[0].key, place.cert);
      },
    ],
  ])('%s: refused with both names', (_what, prepare) => {
    const place = aPlace();
    prepare(place);
    expect(() => openTls(place, () => undefined)).toThrow(
      expect.objectContaining({
        code: 'LISTEN_REFUSED',
        message: expect.stringMatching(
          /^TLS: expected a certificate in .*cert\.pem and its key in .*key\.pem, PEM, got ./,
        ),
      }),
    );
  });

  test('files that go away while it runs are said, and taken when they are back', () => {
    const place = aPlace();
    place.put(certificates[0]);
    const [said, taken] = [[] as string[], [] as string[]];
    const tls = openTls(place, (line) => said.push(line));
    tls.onNew(({ cert }) => taken.push(cert));
    tls.look();
    expect([said, taken]).toEqual([[], []]);
    writeFileSync(place.cert, '');
    tls.look();
    place.put(certificates[1]);
    tls.look();
    tls.look();
    expect(said).toEqual([expect.stringContaining('stays in use'), expect.stringContaining('was renewed')]);
    expect(taken).toEqual([certificates[1].pem]);
  });
});

test('other machines are not listened to in the clear, and a start that is refused leaves nothing behind', async () => {
  const data = temporaryDirectory();
  await expect(startService({ listen: '0.0.0.0:0', data })).rejects.toMatchObject({
    code: 'LISTEN_REFUSED',
    message: expect.stringMatching(
      /passwords would travel in the clear.*--tls-cert.*--behind-proxy.*--plain-passwords/,
    ),
  });
  lockDirectory(data)();
});
