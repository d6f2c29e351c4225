/** What a command shows the service it asks. */

import { once } from 'node:events';
import { writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { asCommand, saysNothing } from '../../services/commands/ledger/look-flags.js';
import { ServiceClient } from '../../services/commands/service-client.js';
import { temporaryDirectory } from '../support/open.js';

const TOKEN = `sandlarder_${'A'.repeat(43)}`;
const OTHER = `sandlarder_${'B'.repeat(43)}`;
const BASIC = { SANDLARDER_HTTP_USER: 'keeper', SANDLARDER_HTTP_PASSWORD: 'sand and roots' };

function fileOf(text: string): string {
  const file = join(temporaryDirectory(), 'token');
  writeFileSync(file, text);
  return file;
}

async function aService() {
  const shown: (string | undefined)[] = [];
  const server = createServer((request, response) => {
    shown.push(request.headers.authorization);
    response.setHeader('content-type', 'application/json').end('[]');
  }).listen(0, '127.0.0.1');
  onTestFinished(() => void server.close());
  await once(server, 'listening');
  const { port } = server.address() as { port: number };
  return { shown, service: `http://127.0.0.1:${port}` };
}

test('the file that a flag names goes before the environment, that before its file, a token before a password', async () => {
  const { shown, service } = await aService();
  const [file, other] = [fileOf(`${TOKEN}\n`), fileOf(OTHER)];
  for (const [tokenFile, environment] of [
    [file, { SANDLARDER_TOKEN: OTHER, SANDLARDER_TOKEN_FILE: other, ...BASIC }],
    [undefined, { SANDLARDER_TOKEN: TOKEN, SANDLARDER_TOKEN_FILE: other, ...BASIC }],
    [undefined, { SANDLARDER_TOKEN_FILE: file, ...BASIC }],
    [undefined, BASIC],
    [undefined, {}],
  ] as const)
    await new ServiceClient({ service, tokenFile }, environment).get('/api/beds');
  const bearer = `Bearer ${TOKEN}`;
  expect(shown).toEqual([bearer, bearer, bearer, `Basic ${btoa('keeper:sand and roots')}`, undefined]);
});

test.each<[string, string | undefined, Record<string, string>, RegExp]>([
  [
    'a file that is not there',
    '/no/such',
    {},
    /^--token-file: expected a file that can be read at \/no\/such, got none$/,
  ],
  ['a folder', '/', {}, /^--token-file: .* at \/, got a folder$/],
  ['an empty name', '', {}, /^--token-file: .* at "", got none$/],
  [
    'a file of another kind',
    'wrong',
    {},
    /^--token-file: expected one that|^--token-file: expected a token that the service made, got another text$/,
  ],
  ['an empty file', 'empty', {}, /^--token-file: expected a token/],
  ['two lines', 'two', {}, /^--token-file: expected a token/],
  [
    'no token in the environment',
    undefined,
    { SANDLARDER_TOKEN: 'tuberous' },
    /^SANDLARDER_TOKEN: expected a token/,
  ],
  [
    'no file of the environment',
    undefined,
    { SANDLARDER_TOKEN_FILE: '/no/such' },
    /^SANDLARDER_TOKEN_FILE: expected a file that can be read/,
  ],
])('%s is wrong usage, and what stands there is not repeated', (_what, file, environment, message) => {
  const made = { wrong: 'tuberous secret', empty: '', two: `${TOKEN}\n${OTHER}\n` }[file ?? ''];
  const tokenFile = made === undefined ? file : fileOf(made);
  let said: unknown;
  try {
    new ServiceClient({ service: 'http://127.0.0.1:1', tokenFile }, { ...environment });
  } catch (error) {
    said = error;
  }
  expect(said).toMatchObject({ code: 'WRONG_USAGE', message: expect.stringMatching(message) });
  expect(String(said)).not.toMatch(/tuberous|AAAA/);
});

test('a look is asked for all the same where only a token is given, and its command names the file', () => {
  const flags = { service: 'http://127.0.0.1:8080', tokenFile: '/etc/token' };
  expect(saysNothing(flags)).toBe(true);
  expect(asCommand('pit-a', flags)).toBe('sandlarder look pit-a --token-file /etc/token');
});
