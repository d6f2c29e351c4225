import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type BridgeFlags, bridge } from '../../../services/commands/bridge.js';
import { type BridgeAsked, bridgeFile } from '../../../services/joining/sharing/bridge-file.js';
import { temporaryDirectory } from '../../support/open.js';

const ASKED: BridgeAsked = {
  ...{ site: 'ridge-station', group: 'north', partitions: 12 },
  centre: { host: 'centre.example', port: 8883, tls: true },
};
const made = (over: Partial<BridgeAsked> = {}) => bridgeFile({ ...ASKED, ...over });

test('the file forwards what probes and the service say of the site, and nothing else, to its partition', () => {
  const { text, partition, acl } = made({ user: 'ridge-station', password: 'long secret' });
  expect(partition).toBe('p008');
  const to = 'sandlarder-centre/north/p008/sandlarder/v1/ridge-station/';
  expect(text.match(/^topic .*$/gm)).toEqual([
    `topic probes/+/readings out 1 sandlarder/v1/ridge-station/ ${to}`,
    `topic probes/+/status out 1 sandlarder/v1/ridge-station/ ${to}`,
    `topic records/+ out 1 sandlarder/v1/ridge-station/ ${to}`,
  ]);
  expect(acl).toBe(`topic write ${to}#`);
  for (const line of ['address centre.example:8883', 'bridge_capath /etc/ssl/certs', 'cleansession false'])
    expect(text).toContain(`\n${line}\n`);
  expect(text).toContain('\nremote_username ridge-station\nremote_password long secret\n');
});

test('an authority of its own, and none without TLS', () => {
  expect(made({ authority: '/etc/sand/ca.pem' }).text).toContain('\nbridge_cafile /etc/sand/ca.pem\n');
  const plain = made({ centre: { host: '127.0.0.1', port: 1883, tls: false } }).text;
  expect(plain).not.toMatch(/bridge_ca|remote_password/);
});

describe('refused', () => {
  test.each<[string, Partial<BridgeAsked>, RegExp]>([
    ['a user alone', { user: 'x' }, /together, got only one/],
    ['a password alone', { password: 'x' }, /together, got only one/],
    [
      'a password of two lines',
      { user: 'x', password: 'x\naddress evil.example' },
      /SANDLARDER_BRIDGE_PASSWORD: expected one line/,
    ],
    [
      'a user that ends in a blank',
      { user: 'x ', password: 'y' },
      /SANDLARDER_BRIDGE_USER: expected one line/,
    ],
    ['an authority of two lines', { authority: 'a\nb' }, /--authority: expected one line/],
    [
      'an authority without TLS',
      { authority: '/ca.pem', centre: { host: '127.0.0.1', port: 1883, tls: false } },
      /--authority: expected a centre at mqtts/,
    ],
    [
      'a password in the clear',
      { user: 'x', password: 'y', centre: { host: 'centre.example', port: 1883, tls: false } },
      /--centre: expected mqtts/,
    ],
  ])('%s', (_, over, problem) => {
    expect(() => made(over)).toThrow(problem);
  });
});

describe('the command', () => {
  const FLAGS: BridgeFlags = { centre: 'mqtts://centre.example', share: 'north', partitions: '12' };
  const SITE = {
    version: 1,
    site: { id: 'ridge-station', name: 'Ridge station', timezone: 'Africa/Lusaka' },
  };

  function ran(flags: Partial<BridgeFlags> = {}, site: unknown = SITE) {
    const folder = temporaryDirectory();
    const [file, to] = [join(folder, 'site.json'), join(folder, 'bridge.conf')];
    writeFileSync(file, JSON.stringify(site));
    const said: string[] = [];
    bridge(file, { ...FLAGS, to, ...flags }, (line) => said.push(line), {});
    return { said, to };
  }

  test('writes the file for nobody else to read, and says what the centre must let in', () => {
    const { said, to } = ran();
    expect(readFileSync(to, 'utf8')).toBe(made().text);
    expect(statSync(to).mode & 0o777).toBe(0o600);
    expect(said.join('\n')).toContain(made().acl);
  });

  test('prints it as JSON', () => {
    const { said } = ran({ json: true });
    expect(JSON.parse(said.join())).toMatchObject({ partition: 'p008', acl: made().acl, text: made().text });
  });

  test.each<[Partial<BridgeFlags>, RegExp]>([
    [{ centre: 'https://centre.example' }, /--centre: .*expected mqtt:\/\//],
    [{ share: 'North' }, /--share: expected a name/],
    [{ partitions: '0' }, /--partitions: expected a whole number/],
    [{ to: '/nowhere/at/all/bridge.conf' }, /--to: expected a file that can be written/],
  ])('%o is refused', (flags, problem) => {
    expect(() => ran(flags)).toThrow(problem);
  });

  test('a description that names no site is refused', () => {
    expect(() => ran({}, { version: 1 })).toThrow(/site.json: site: expected/);
  });
});
