import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { describe, expect, test } from 'vitest';

const ROOT = new URL('..', import.meta.url).pathname;

/** Folder to the folders that it may import. `npm` are packages, `node` built-in modules. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  'services/core': ['services/core', 'npm'],
  'services/intake': ['services/intake', 'services/core', 'npm', 'node'],
  'services/archive': ['services/archive', 'services/core', 'npm', 'node'],
  'services/registry': ['services/registry', 'services/core', 'npm', 'node'],
  'services/senders': ['services/senders', 'services/core', 'npm', 'node'],
  'services/tables': ['services/tables', 'services/core', 'npm', 'node'],
  'services/http': ['services/http', 'services/core', 'npm', 'node'],
  'services/web': ['services/web', 'services/core', 'npm'],
  simulator: ['simulator', 'services/core/model', 'services/core/errors', 'npm', 'node'],
};

/** Inside core, imports run one way: a folder may import those behind it. */
const CORE_ORDER = ['trials', 'keeping', 'alarms', 'watch', 'calibration', 'physics', 'model', 'errors'];

/** Packages that are pure, and so may be imported by core. */
const PURE_PACKAGES = ['zod', 'simple-statistics', 'luxon', 'intl-messageformat'];

/** What a pure function cannot name. `new Date(x)` is arithmetic; `new Date()` is a clock. */
const IMPURE =
  /\bDate\.now\b|\bnew Date\(\)|\bMath\.random\b|\bprocess\.|\bconsole\.|\b(?:setTimeout|setInterval|setImmediate|fetch|require)\(/;

function sources(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => join(folder, name));
}

const withoutComments = (text: string): string =>
  text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '');

function importsOf(file: string): string[] {
  const text = withoutComments(readFileSync(join(ROOT, file), 'utf8'));
  return [...text.matchAll(/(?:from\s+|import\s*\(\s*|import\s+)'([^']+)'/g)].map((match) => match[1] ?? '');
}

function classify(file: string, specifier: string): string {
  if (specifier.startsWith('node:')) return 'node';
  if (!specifier.startsWith('.')) return 'npm';
  return relative(ROOT, join(ROOT, file, '..', specifier));
}

/** What a file imports for use, not for its types alone. */
function valuesFrom(file: string): string[] {
  const text = withoutComments(readFileSync(join(ROOT, file), 'utf8'));
  return [...text.matchAll(/(?:import|export)\s+(?!type\b)[^;']*?from\s+'([^']+)'/g)].map(
    (match) => match[1] ?? '',
  );
}

/** Whether a file of core brings zod along, itself or by what it imports. */
function importsZod(file: string, seen = new Set<string>()): boolean {
  if (seen.has(file)) return false;
  seen.add(file);
  return valuesFrom(file).some(
    (specifier) =>
      specifier === 'zod' ||
      (specifier.startsWith('.') && importsZod(classify(file, specifier).replace(/\.js$/, '.ts'), seen)),
  );
}

const within = (path: string, folders: readonly string[]): boolean =>
  folders.some((folder) => path === folder || path === `${folder}.js` || path.startsWith(`${folder}/`));

describe('imports follow the layout', () => {
  for (const [folder, allowed] of Object.entries(MAY_IMPORT))
    test(`${folder} imports only ${allowed.join(', ')}`, () => {
      const strays = sources(folder).flatMap((file) =>
        importsOf(file)
          .map((specifier) => classify(file, specifier))
          .filter((target) => !within(target, allowed))
          .map((target) => `${file} imports ${target}`),
      );
      expect(strays).toEqual([]);
    });

  test('the page takes from core what is small: nothing that brings zod along', () => {
    const strays = sources('services/web').flatMap((file) =>
      valuesFrom(file)
        .map((specifier) => classify(file, specifier).replace(/\.js$/, '.ts'))
        .filter((target) => target.startsWith('services/core/') && importsZod(target))
        .map((target) => `${file} imports ${target}`),
    );
    expect(strays).toEqual([]);
  });

  test('only main.ts imports serve.ts', () => {
    const importers = sources('services').filter((file) =>
      importsOf(file).some((specifier) => classify(file, specifier) === 'services/serve.js'),
    );
    expect(importers.filter((file) => !/^services\/(main|demo|commands\/)/.test(file))).toEqual([]);
  });

  test('core imports run one way and only pure packages', () => {
    const strays = sources('services/core').flatMap((file) => {
      const own = CORE_ORDER.indexOf(file.split('/')[2]?.replace('.ts', '') ?? '');
      return importsOf(file).flatMap((specifier) => {
        const target = classify(file, specifier);
        if (target === 'npm')
          return PURE_PACKAGES.includes(specifier) ? [] : [`${file} imports ${specifier}`];
        const other = CORE_ORDER.indexOf(target.split('/')[2]?.replace('.js', '') ?? '');
        return other >= own ? [] : [`${file} imports ${target}`];
      });
    });
    expect(strays).toEqual([]);
  });

  test('core names no clock, chance, socket, file or log', () => {
    const strays = sources('services/core').filter((file) =>
      IMPURE.test(withoutComments(readFileSync(join(ROOT, file), 'utf8'))),
    );
    expect(strays).toEqual([]);
  });

  test('no source file is longer than 300 lines', () => {
    const long = ['services', 'simulator', 'tests']
      .flatMap(sources)
      .filter((file) => readFileSync(join(ROOT, file), 'utf8').split('\n').length > 301);
    expect(long).toEqual([]);
  });
});
