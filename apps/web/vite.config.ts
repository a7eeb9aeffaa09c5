import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

export default defineConfig({
  root: import.meta.dirname,
  plugins: [react()],
  server: { port: 4310, proxy: { '/api': process.env.API_URL ?? 'http://localhost:4300' } },
  build: {
    target: 'es2022',
    sourcemap: false,
    // Lets a test read which chunks the sign-in, the shell and each page need, and hold them to their budget.
    manifest: true,
    rolldownOptions: {
      output: {
        // The statistics weigh more than the tests that use them and change far less often: kept by the browser.
        codeSplitting: { groups: [{ name: 'statistics', test: /node_modules\/@stdlib\// }] },
      },
      treeshake: {
        // The contracts, units and rules are shapes and pure functions: what a page does not use is left out,
        // although building a schema looks like an effect to the bundler.
        moduleSideEffects: [{ test: /\/packages\/[^/]+\/src\//, sideEffects: false }],
      },
    },
  },
});
