import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** The tests that the mutants of the two packages are run against. */
export default defineConfig({
  root,
  resolve: {
    // The mutants live in a copy of the tree, but node_modules still leads to the packages as they are.
    alias: {
      '@countercheck/measurement': `${root}packages/measurement/src/index.ts`,
      '@countercheck/rules/load': `${root}packages/rules/src/load/index.ts`,
      '@countercheck/rules': `${root}packages/rules/src/index.ts`,
    },
  },
  test: {
    include: ['packages/{measurement,rules}/**/*.test.ts', 'tests/published/published.test.ts'],
    exclude: ['**/node_modules/**'],
    environment: 'node',
  },
});
