import { expect, it } from 'vitest';
import { loads, type Manifest } from './loads.ts';

const manifest: Manifest = {
  'index.html': { file: 'index.js', isEntry: true },
  'src/app/entrance.tsx': { file: 'entrance.js', isDynamicEntry: true, imports: ['_form.js'] },
  'src/app/desk.tsx': {
    file: 'desk.js',
    isDynamicEntry: true,
    imports: ['_form.js', '_table.js'],
    dynamicImports: ['src/features/a/a-page.tsx', 'src/features/b/b-page.tsx'],
  },
  '_form.js': { file: 'form.js' },
  '_table.js': { file: 'table.js', imports: ['_form.js'] },
  '_chart.js': { file: 'chart.js', imports: ['_table.js', '_ring.js'] },
  '_ring.js': { file: 'ring.js', imports: ['_chart.js'] },
  'src/features/a/a-page.tsx': {
    file: 'a.js',
    isDynamicEntry: true,
    imports: ['_table.js', '_chart.js'],
    dynamicImports: ['src/features/a/dialog.tsx'],
  },
  'src/features/a/dialog.tsx': {
    file: 'dialog.js',
    isDynamicEntry: true,
    imports: ['_chart.js', '_date.js'],
  },
  '_date.js': { file: 'date.js' },
  'src/features/b/b-page.tsx': { file: 'b.js', isDynamicEntry: true, imports: ['_form.js'] },
};
const budgets = { signIn: 110, shell: 230, page: 60 };

it('counts a page by what it brings beyond the shell, and a part beyond its page, each script once', () => {
  expect(loads(manifest, budgets)).toEqual([
    { name: 'signing in', limit: 110, files: ['index.js', 'entrance.js', 'form.js'] },
    { name: 'the shell', limit: 230, files: ['index.js', 'desk.js', 'form.js', 'table.js'] },
    { name: 'src/features/a/a-page.tsx', limit: 60, files: ['a.js', 'chart.js', 'ring.js'] },
    { name: 'src/features/a/dialog.tsx, opened on a-page.tsx', limit: 60, files: ['dialog.js', 'date.js'] },
    { name: 'src/features/b/b-page.tsx', limit: 60, files: ['b.js'] },
  ]);
});

it('does not take silence for a small program', () => {
  expect(() => loads({}, budgets)).toThrow('no entry');
  expect(() => loads({ 'index.html': { file: 'i.js', isEntry: true } }, budgets)).toThrow('desk.tsx');
});
