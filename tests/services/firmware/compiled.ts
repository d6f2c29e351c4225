/** The encoder of the notes for probes, compiled strictly and with sanitizers: once for all tests, and kept for the next run. */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync } from 'node:fs';
import { join } from 'node:path';

export const ENCODER = new URL('../../../firmware-notes/encoder/', import.meta.url).pathname;
const HOST = new URL('host.c', import.meta.url).pathname;
const BUILDS = new URL('../../../.build/firmware/', import.meta.url).pathname;

export const STRICT = ['-std=c99', '-Wall', '-Wextra', '-Werror', '-pedantic'];
const SANITIZED = ['-g', '-O1', '-fsanitize=address,undefined', '-fno-sanitize-recover'];

const EXAMPLE = 'example.c';

/** Its sources without the example, whole paths. */
export const sources = (): string[] => list((name) => name.endsWith('.c') && name !== EXAMPLE);

const list = (is: (name: string) => boolean): string[] =>
  readdirSync(ENCODER)
    .filter(is)
    .sort()
    .map((name) => join(ENCODER, name));

/** The program that runs the encoder for the tests. */
export const compileHost = (): string => compile('host', HOST);

/** The worked example. */
export const compileExample = (): string => compile('example', join(ENCODER, EXAMPLE));

/** The name holds all that the program is made of, so that what was made of other sources is never run. */
function compile(name: string, main: string): string {
  const digest = createHash('sha256').update(execFileSync('cc', ['--version']));
  for (const file of [main, ...list((entry) => /\.[ch]$/.test(entry))]) digest.update(readFileSync(file));
  const flags = [...STRICT, ...SANITIZED, `-I${ENCODER}`];
  const program = join(BUILDS, `${name}-${digest.update(flags.join()).digest('hex').slice(0, 16)}`);
  if (existsSync(program)) return program;
  mkdirSync(BUILDS, { recursive: true });
  const unfinished = `${program}.${process.pid}`;
  execFileSync('cc', [...flags, '-o', unfinished, main, ...sources()], { stdio: 'pipe' });
  renameSync(unfinished, program);
  return program;
}
