/** The worked example as it runs, what the encoder asks of the machine, and what the script for sizes says. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { readMessage } from '../../../services/intake/index.js';
import { compileExample, ENCODER, STRICT, sources } from './compiled.js';

const START_s = 1_780_000_000;
const EVERY_s = 600;

/** When each of the example's packs is sent, s after its start: what waited needs two. */
const SENT_s = [1800, 1800, 2400, 3000, 3600];

test('the example says what it measured, through an outage, a shorted sensor and a wrong clock', () => {
  const packs = execFileSync(compileExample(), { encoding: 'utf8' }).trimEnd().split('\n');
  expect(packs).toHaveLength(SENT_s.length);
  const measured = packs.flatMap((line, n) => {
    const [topic = '', text = ''] = line.split(' ');
    const receivedAt = (START_s + (SENT_s[n] ?? 0)) * 1000;
    const message = readMessage({ topic, payload: Buffer.from(text), receivedAt });
    expect(message).toMatchObject({ site: 'ridge-station', probe: 'p01', setAside: [] });
    return message.measured;
  });
  const times = [0, 1, 2, 3, 4, 5, 6].map((n) => (START_s + n * EVERY_s) * 1000);
  const of = (quantity: string) => measured.filter((one) => one.quantity === quantity);
  expect(of('temperature')).toEqual(times.map((time) => ({ quantity: 'temperature', time, value: 25.063 })));
  expect(of('humidity').map(({ value }) => value)).toEqual([65.2, 0, 65.2, 65.2, 65.2, 65.2, 65.2]);
  expect(of('battery')).toHaveLength(times.length);
});

test('the encoder calls nothing that is not its own: no C library, no heap', () => {
  const folder = mkdtempSync(join(tmpdir(), 'sandlarder-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const flags = [...STRICT, '-Wconversion', '-Wshadow', '-Os', '-ffreestanding', '-fno-stack-protector'];
  execFileSync('cc', [...flags, '-c', ...sources()], { cwd: folder, stdio: 'pipe' });
  const objects = sources().map((source) => source.replace(/^.*\//, '').replace(/c$/, 'o'));
  const symbols = execFileSync('nm', objects, { cwd: folder, encoding: 'utf8' });
  const named = (kind: string) => new Set([...symbols.matchAll(kindPattern(kind))].map((match) => match[1]));
  const foreign = [...named('U')].filter((name) => !named('T').has(name));
  expect(foreign.filter((name) => name !== '_GLOBAL_OFFSET_TABLE_')).toEqual([]);
  expect(named('[BbCDd]').size).toBe(0);
});

const kindPattern = (kind: string): RegExp => new RegExp(`^[0-9a-f ]+ ${kind} (\\S+)$`, 'gm');

test('the script for sizes says in one sentence what it misses', () => {
  const { status, stdout, stderr } = spawnSync('/bin/sh', [join(ENCODER, 'size.sh')], {
    env: { PATH: '/nonexistent' },
    encoding: 'utf8',
  });
  expect([status, stdout]).toEqual([1, '']);
  expect(stderr).toMatch(
    /^size\.sh: expected arm-none-eabi-gcc, got none: install Debian's gcc-arm-none-eabi .*\n$/,
  );
});
