import { defineConfig } from 'vitest/config';

const skipped = ['**/node_modules/**', '**/dist/**', '**/generated/**', '.data/**'];

export default defineConfig({
  test: {
    // The suite has to leave room on a two-core machine that also runs the database and the browser.
    maxWorkers: 2,
    projects: [
      {
        test: {
          name: 'unit',
          include: [
            'packages/**/*.test.ts',
            'prisma/**/*.test.ts',
            'apps/host/**/*.test.ts',
            'apps/web/**/*.test.ts',
            'tests/published/**/*.test.ts',
            'tests/budgets/**/*.test.ts',
          ],
          exclude: skipped,
          environment: 'node',
        },
      },
      {
        test: {
          name: 'api',
          include: ['apps/api/**/*.test.ts', 'tests/{access,api}/**/*.test.ts'],
          exclude: skipped,
          environment: 'node',
          globalSetup: ['tests/support/setup-api.ts'],
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          exclude: skipped,
          environment: 'node',
          globalSetup: ['tests/support/setup-browser.ts', 'tests/support/setup-whole.ts'],
          testTimeout: 90_000,
          hookTimeout: 180_000,
        },
      },
      {
        test: {
          name: 'operations',
          include: ['tests/operations/**/*.test.ts'],
          exclude: skipped,
          environment: 'node',
          globalSetup: ['tests/support/setup-whole.ts'],
          // Each of these starts whole programs; side by side they would only wait for each other.
          fileParallelism: false,
          testTimeout: 180_000,
          hookTimeout: 180_000,
        },
      },
    ],
  },
});
