import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import { defineConfig, type Plugin } from 'vite';

const OUT = new URL('.build/web', import.meta.url).pathname;

const WEB = new URL('services/web', import.meta.url).pathname;

const COMPRESSED = /\.(?:js|css|html|svg|json|webmanifest)$/;

/** Words of other languages are kept once they were read, not before. */
const LATER = /\/words-/;

/** Of the page's own files: the service answers at `/beds` with the document. */
const addressOf = (name: string): string => (name === 'index.html' ? '/beds' : `/${name}`);

/** Tells the worker which files there are, and what they come to: with any other content it is another worker. */
function writeIntoWorker(): void {
  const names = readdirSync(OUT, { recursive: true, encoding: 'utf8', withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => relative(OUT, join(parentPath, name)))
    .filter((name) => name !== 'worker.js' && !/\.(?:br|gz)$/.test(name))
    .sort();
  const hash = createHash('sha256');
  for (const name of names) hash.update(name).update(readFileSync(join(OUT, name)));
  const files = names.map(addressOf).filter((address) => !LATER.test(address));
  const worker = join(OUT, 'worker.js');
  const code = readFileSync(worker, 'utf8')
    .replaceAll('BUILT_VERSION', JSON.stringify(hash.digest('hex').slice(0, 16)))
    .replaceAll('BUILT_FILES', JSON.stringify(files));
  writeFileSync(worker, code);
}

/** Writes each text file in its compressed forms beside it, so that the service sends them without work of its own. */
const compressed = (): Plugin => ({
  name: 'compressed',
  apply: 'build',
  writeBundle() {
    writeIntoWorker();
    for (const name of readdirSync(OUT, { recursive: true, encoding: 'utf8' }))
      if (COMPRESSED.test(name)) {
        const bytes = readFileSync(join(OUT, name));
        writeFileSync(join(OUT, `${name}.br`), brotliCompressSync(bytes));
        writeFileSync(join(OUT, `${name}.gz`), gzipSync(bytes));
      }
  },
});

// The page: services/web into .build/web. Cheap phones keep their browser for years: what they run is what ES2020 says.
export default defineConfig({
  root: 'services/web',
  logLevel: 'warn',
  // Spelled out, so that vite does not look for the nearest tsconfig's.
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    outDir: OUT,
    emptyOutDir: true,
    target: 'es2020',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    sourcemap: false,
    rolldownOptions: {
      input: { page: `${WEB}/index.html`, worker: `${WEB}/device/worker.ts` },
      output: {
        entryFileNames: ({ name }) => (name === 'worker' ? 'worker.js' : 'assets/[name]-[hash].js'),
        chunkFileNames: ({ facadeModuleId }) => {
          const [, code] = /\/words\/(\w+)\/index\.ts$/.exec(facadeModuleId ?? '') ?? [];
          return code ? `assets/words-${code}-[hash].js` : 'assets/[name]-[hash].js';
        },
      },
    },
  },
  plugins: [compressed()],
});
