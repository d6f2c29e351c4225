import { defineConfig } from 'vite';

const source = (path: string): string => new URL(path, import.meta.url).pathname;

// The program: services/main.ts and what runs beside it, into .build/program. Few files, all in one folder, instead of the
// hundreds that tsc writes: to find and read them one by one is most of a start. Packages stay where they are.
export default defineConfig({
  logLevel: 'warn',
  publicDir: false,
  build: {
    ssr: true,
    outDir: source('.build/program'),
    emptyOutDir: true,
    target: 'node20',
    minify: false,
    sourcemap: true,
    rolldownOptions: {
      // Names by which the program looks for them beside itself.
      input: {
        main: source('services/main.ts'),
        'coverage-worker': source('services/joining/coverage-worker.ts'),
        'plan-worker': source('services/joining/plan-worker.ts'),
        'look-over-process': source('services/joining/look-over-process.ts'),
        'evaluation-worker': source('services/commands/evaluation/evaluation-worker.ts'),
        'season-worker': source('simulator/season-worker.ts'),
      },
      output: { entryFileNames: '[name].js', chunkFileNames: 'parts-[name].js' },
    },
  },
});
