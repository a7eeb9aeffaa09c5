/** The part of the test runner's `import.meta.glob` that tests here use. */
interface ImportMeta {
  glob(pattern: string, options: { query: '?raw'; import: 'default'; eager: true }): Record<string, string>;
}
