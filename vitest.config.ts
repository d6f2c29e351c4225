import { defineConfig } from 'vitest/config';

const report = process.env['SANDLARDER_TEST_REPORT'];

// Three sets: `unit` needs nothing but Node; `services` starts real programs (a Mosquitto, processes to be killed); `page`
// opens the page in a real Chromium.
export default defineConfig({
  test: {
    // Of two cores vitest would leave one idle.
    maxWorkers: '100%',
    reporters: report ? ['default', ['json', { outputFile: report }]] : ['default'],
    projects: [
      {
        test: {
          name: 'unit',
          // Modules are read once a worker, not once a file: of 760 s of reading and testing 340 were reading.
          isolate: false,
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/services/**', 'tests/page/**'],
          testTimeout: 120_000,
        },
      },
      {
        test: {
          name: 'services',
          include: ['tests/services/**/*.test.ts'],
          testTimeout: 600_000,
          hookTimeout: 60_000,
          fileParallelism: false,
        },
      },
      {
        test: {
          name: 'page',
          isolate: false,
          include: ['tests/page/**/*.test.ts'],
          globalSetup: ['tests/page/support/prepare.ts'],
          testTimeout: 120_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
});
