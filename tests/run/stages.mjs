/** @typedef {{ name: string, what: string, commands?: string[][], project?: string, minutes: number }} Stage */

const tool = (/** @type {string} */ path, /** @type {string[]} */ ...args) => [
  `node_modules/${path}`,
  ...args,
];

/** @type {Stage[]} */
export const stages = [
  {
    name: 'format',
    what: 'formatting',
    commands: [tool('prettier/bin/prettier.cjs', '--check', '--log-level', 'warn', '.')],
    minutes: 2,
  },
  { name: 'lint', what: 'lint rules', commands: [tool('eslint/bin/eslint.js', '.')], minutes: 4 },
  {
    name: 'types',
    what: 'types',
    commands: [tool('typescript/bin/tsc', '-p', '.'), tool('typescript/bin/tsc', '-p', 'apps/web')],
    minutes: 4,
  },
  {
    name: 'imports',
    what: 'direction of imports',
    commands: [
      tool(
        'dependency-cruiser/bin/dependency-cruise.mjs',
        ...['--config', '.dependency-cruiser.cjs', 'packages', 'apps', 'prisma', 'tests'],
      ),
    ],
    minutes: 2,
  },
  { name: 'unused', what: 'unused code', commands: [tool('knip/bin/knip.js')], minutes: 2 },
  { name: 'unit', what: 'unit tests', project: 'unit', minutes: 8 },
  { name: 'api', what: 'API tests on PostgreSQL', project: 'api', minutes: 12 },
  { name: 'browser', what: 'browser tests', project: 'browser', minutes: 18 },
  {
    name: 'budgets',
    what: 'weight of the pages',
    commands: [['--import', 'tsx', 'tests/budgets/index.ts']],
    minutes: 4,
  },
  { name: 'operations', what: 'operations tests', project: 'operations', minutes: 8 },
];
