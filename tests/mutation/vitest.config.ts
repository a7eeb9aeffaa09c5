import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/**
 * The tests that mutants are run against: each package's own, beside its code. The checks from outside are left
 * out, although they would notice more, because every mutant would wait for all they read.
 */
export default defineConfig({
  root: fileURLToPath(new URL('../../', import.meta.url)),
  test: {
    include: ['packages/{measurement,rules}/**/*.test.ts'],
    exclude: ['**/node_modules/**'],
    environment: 'node',
    // Mutants run at low priority beside other work.
    testTimeout: 60_000,
  },
});
