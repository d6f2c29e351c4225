// Runs after every install: looks whether the database binary works, then builds into .build.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);

try {
  const Database = require('better-sqlite3');
  new Database(':memory:').close();
} catch (error) {
  console.error(
    [
      '',
      'sandlarder: the database binary of better-sqlite3 is missing or does not fit this machine.',
      'Neither could a prebuilt binary be downloaded, nor could one be compiled here. One of the two is needed:',
      '  - let the install reach the place of the prebuilt binaries, and run "npm ci" again; or',
      '  - install a C++ compiler, make and python3 (Debian: apt-get install g++ make python3), and run "npm ci" again.',
      `What the loader said: ${String(error.message).replace(/\s*\n\s*/g, ' ')}`,
      '',
    ].join('\n'),
  );
  process.exit(1);
}

// Where whoever installs builds next anyway.
if (process.env.SANDLARDER_BUILD === 'later') process.exit(0);

const installed = (path) => new URL(`../node_modules/${path}`, import.meta.url).pathname;
const compiler = installed('typescript/bin/tsc');
const bundler = installed('vite/bin/vite.js');
if (!existsSync(compiler) || !existsSync(bundler)) {
  const built = existsSync(new URL('../.build/program/main.js', import.meta.url));
  if (built) process.exit(0);
  console.error(
    'sandlarder: typescript and vite are not installed, so nothing can be built: run "npm ci" without --omit=dev.',
  );
  process.exit(1);
}
for (const build of [
  [compiler, '-p', 'tsconfig.build.json'],
  [bundler, 'build'],
  [bundler, 'build', '--config', 'vite.program.config.ts'],
]) {
  const { status } = spawnSync(process.execPath, build, { stdio: 'inherit' });
  if (status !== 0) process.exit(status ?? 1);
}
