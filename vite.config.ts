import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import { defineConfig, type Plugin } from 'vite';

const OUT = new URL('.build/web', import.meta.url).pathname;

const COMPRESSED = /\.(?:js|css|html|svg|json|webmanifest)$/;

/** Writes each text file in its compressed forms beside it, so that the service sends them without work of its own. */
const compressed = (): Plugin => ({
  name: 'compressed',
  apply: 'build',
  closeBundle() {
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
  },
  plugins: [compressed()],
});
