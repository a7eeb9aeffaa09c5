/** @typedef {{ name: string, what: string, commands?: string[][], project?: string, minutes: number }} Stage */

const tool = (/** @type {string} */ path, /** @type {string[]} */ ...args) => [
  `node_modules/${path}`,
  ...args,
];

/**
 * The longest first: checks beside each other run two at a time, and lint takes as long as the rest together.
 * @type {Stage[]}
 */
export const stages = [
  { name: 'lint', what: 'lint rules', commands: [tool('eslint/bin/eslint.js', '.')], minutes: 6 },
  {
    name: 'format',
    what: 'formatting',
    commands: [tool('prettier/bin/prettier.cjs', '--check', '--log-level', 'warn', '.')],
    minutes: 4,
  },
  {
    name: 'types',
    what: 'types',
    commands: [tool('typescript/bin/tsc', '-p', '.'), tool('typescript/bin/tsc', '-p', 'apps/web')],
    minutes: 6,
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
    minutes: 4,
  },
  { name: 'unused', what: 'unused code', commands: [tool('knip/bin/knip.js')], minutes: 4 },
  {
    name: 'budgets',
    what: 'weight of the pages',
    commands: [['--import', 'tsx', 'tests/budgets/index.ts']],
    minutes: 4,
  },
  { name: 'unit', what: 'unit tests', project: 'unit', minutes: 8 },
  { name: 'api', what: 'API tests on PostgreSQL', project: 'api', minutes: 12 },
  { name: 'browser', what: 'browser tests', project: 'browser', minutes: 18 },
  { name: 'operations', what: 'operations tests', project: 'operations', minutes: 8 },
];
