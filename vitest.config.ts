import { defineConfig } from 'vitest/config';

// One runner for everything: `unit` mirrors src/, `outside` checks against published values and reference libraries,
// `browser` drives a real Chromium, `faults` kills and breaks things.
const shared = { testTimeout: 30_000, hookTimeout: 60_000 };
export default defineConfig({
  test: {
    projects: [
      {
        test: {
          ...shared,
          name: 'unit',
          include: ['test/**/*.test.{ts,tsx}'],
          exclude: ['test/outside/**', 'test/browser/**', 'test/faults/**'],
        },
      },
      { test: { ...shared, name: 'outside', include: ['test/outside/**/*.test.ts'] } },
      {
        test: {
          ...shared,
          name: 'faults',
          include: ['test/faults/**/*.test.ts'],
          testTimeout: 120_000,
          fileParallelism: false,
        },
      },
      {
        test: {
          ...shared,
          name: 'browser',
          include: ['test/browser/**/*.test.ts'],
          testTimeout: 120_000,
          // A busy machine draws and answers late: what is waited for must come, not come within a second.
          expect: { poll: { timeout: 15_000 } },
          fileParallelism: false,
        },
      },
    ],
  },
});
