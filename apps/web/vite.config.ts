import react from '@vitejs/plugin-react';
import { defineConfig, type UserConfig } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { together } from './build/together.ts';

const plain: UserConfig = {
  root: import.meta.dirname,
  plugins: [react()],
  server: { port: 4310, proxy: { '/api': process.env.API_URL ?? 'http://localhost:4300' } },
  build: {
    target: 'es2022',
    sourcemap: false,
    // Lets a test read which chunks the sign-in, the shell and each page need, and hold them to their budget.
    manifest: true,
    rolldownOptions: {
      treeshake: {
        // The contracts, units and rules are shapes and pure functions: what a page does not use is left out,
        // although building a schema looks like an effect to the bundler.
        moduleSideEffects: [
          { test: /\/packages\/[^/]+\/src\//, sideEffects: false },
          { test: /\/apps\/web\/src\/(components|lib)\/.*\.tsx?$/, sideEffects: false },
        ],
      },
    },
  },
};

export default defineConfig(async ({ command }) => {
  if (command !== 'build') return plain;
  const groups = await together(plain);
  return {
    ...plain,
    plugins: [...plain.plugins!, installable()],
    build: {
      ...plain.build,
      rolldownOptions: { ...plain.build!.rolldownOptions, output: { codeSplitting: { groups } } },
    },
  };
});

/** The worker that keeps the pages on a rater's phone, and what a phone shows of an app. */
function installable() {
  return VitePWA({
    strategies: 'injectManifest',
    srcDir: 'src',
    filename: 'field-worker.ts',
    // The rater's pages register it themselves, and offer a newer one in words.
    injectRegister: false,
    injectManifest: { globPatterns: ['**/*.{js,css,html,svg,png,webmanifest}'] },
    manifest: {
      name: 'Countercheck',
      short_name: 'Countercheck',
      description: 'The rater’s day: houses, readings and verdicts, with or without a network.',
      start_url: '/day',
      display: 'standalone',
      background_color: '#f3f5f1',
      theme_color: '#143c40',
      icons: [
        { src: '/icon-192.png', sizes: '192x192', type: 'image/png' },
        { src: '/icon-512.png', sizes: '512x512', type: 'image/png' },
        { src: '/icon-whole.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
      ],
    },
  });
}
