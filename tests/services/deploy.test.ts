/** The unit for systemd: understood by systemd, closed as far as it says, and its command starts and stops the service. */
import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { temporaryDirectory } from '../support/open.js';
import { start } from '../support/processes.js';

const UNIT = new URL('../../services/deploy/sandlarder.service', import.meta.url).pathname;
const CONTAINER = new URL('../../services/deploy/Containerfile', import.meta.url).pathname;
const MAIN = new URL('../../.build/program/main.js', import.meta.url).pathname;
/** Exposure that systemd-analyze may find at most, tenths of its scale of 10; it finds 1.3. */
const EXPOSURE_AT_MOST = 20;

/** The unit with the program and Node.js of this machine. */
function unitOfHere(): string {
  const file = join(temporaryDirectory(), 'sandlarder.service');
  const text = readFileSync(UNIT, 'utf8')
    .replace('/usr/bin/node', process.execPath)
    .replace('/opt/sandlarder/.build/program/main.js', MAIN);
  writeFileSync(file, text);
  return file;
}

test('systemd understands every line of it', () => {
  // It tells what it does not understand on standard error, and is content.
  const said = (file: string): string =>
    spawnSync('systemd-analyze', ['verify', '--man=no', file], { encoding: 'utf8' }).stderr;
  const unit = unitOfHere();
  expect(said(unit)).toBe('');
  writeFileSync(unit, readFileSync(unit, 'utf8').replace('ProtectHome=yes', 'ProtectHome=perhaps'));
  expect(said(unit)).toMatch(/protect home/);
});

test('it may touch little of the machine', () => {
  const asked = ['security', '--offline=true', `--threshold=${EXPOSURE_AT_MOST}`, unitOfHere()];
  execFileSync('systemd-analyze', asked, { stdio: 'pipe' });
});

test('its command starts the service, says so in JSON, and stops when it is asked to', async () => {
  const line = /^ExecStart=\S+ \S+ (.*)$/m.exec(readFileSync(UNIT, 'utf8'))?.[1] ?? '';
  const args = line.replace('/var/lib/sandlarder', temporaryDirectory()).split(' ');
  const service = start([...args, '--listen', '127.0.0.1:0', '--mqtt-listen', '127.0.0.1:0']);
  await service.said(/"msg":"ready:/);
  expect(await service.stop()).toBe(0);
  const lines = service
    .output()
    .trimEnd()
    .split('\n')
    .map((text) => JSON.parse(text) as { level: string; msg: string; time: string });
  expect(lines.map(({ msg }) => msg).at(-1)).toBe('stopped');
  expect(lines.every(({ level, time }) => level === 'info' && !Number.isNaN(Date.parse(time)))).toBe(true);
});

test('the command of the container is one that starts', async () => {
  const text = readFileSync(CONTAINER, 'utf8');
  const args = JSON.parse(/^CMD (\[.*\])$/m.exec(text)?.[1] ?? '[]') as string[];
  const here = args.map((one) =>
    one === '/var/lib/sandlarder' ? temporaryDirectory() : one.replace(':8080', ':0'),
  );
  const service = start([...here, '--mqtt-listen', '127.0.0.1:0']);
  await service.said(/"msg":"ready:/);
});
