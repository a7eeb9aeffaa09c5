const nothingBut = (name, from, allowed, comment) => ({
  name,
  comment,
  severity: 'error',
  from: { path: from, pathNot: '\\.test\\.ts$|/src/test/' },
  to: { pathNot: [from, ...allowed] },
});

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    {
      name: 'no-cycles',
      comment: 'Two modules that need each other are one module in two files.',
      severity: 'error',
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
    {
      name: 'packages-know-no-apps',
      severity: 'error',
      from: { path: '^packages/' },
      to: { path: '^(apps|prisma|tests)/' },
    },
    nothingBut(
      'distributions-stand-alone',
      '^packages/distributions/',
      [],
      'A phone carries them: they bring nothing along.',
    ),
    nothingBut(
      'measurement-stands-alone',
      '^packages/measurement/',
      ['^packages/distributions/', '^node_modules/@stdlib/'],
      'Quantities and units rest on nothing but the mathematics of distributions.',
    ),
    nothingBut(
      'rules-do-no-io',
      '^packages/rules/',
      ['^packages/measurement/', '^node_modules/(zod|yaml)/'],
      'Verdicts must be the same wherever they are worked out.',
    ),
    nothingBut(
      'assessment-rests-on-measurement-and-rules',
      '^packages/assessment/',
      ['^packages/(measurement|rules)/', '^node_modules/zod/'],
      'The house as a whole is judged from figures and rules only.',
    ),
    nothingBut(
      'quality-does-no-io',
      '^packages/quality/',
      ['^packages/(measurement|rules)/', '^node_modules/zod/'],
      'Checklists and agreements are the same wherever they are looked at.',
    ),
    nothingBut(
      'sampling-is-mathematics',
      '^packages/sampling/',
      ['^packages/distributions/', '^node_modules/(@stdlib|@noble|canonicalize|zod)/'],
      'A draw must be repeatable from its record alone, by anybody.',
    ),
    nothingBut(
      'signals-are-mathematics',
      '^packages/signals/',
      ['^packages/measurement/', '^node_modules/@stdlib/'],
      'A signal is a documented test on readings, wherever they are kept.',
    ),
    nothingBut(
      'seal-is-checked-by-anybody',
      '^packages/seal/',
      ['^node_modules/(canonicalize|zod)/'],
      'Whoever holds an exported log or a proof can check it without the service.',
    ),
    nothingBut(
      'planning-is-mathematics',
      '^packages/planning/',
      ['^node_modules/highs/'],
      'A plan is worked out from visits and people, wherever they are kept.',
    ),
    nothingBut(
      'contracts-are-shapes',
      '^packages/contracts/',
      [
        '^packages/(measurement|rules|assessment|quality|sampling|seal|signals|planning)/',
        '^node_modules/zod/',
      ],
      'Both sides of the wire read these; they bring nothing along.',
    ),
    {
      name: 'web-asks-the-api',
      severity: 'error',
      from: { path: '^apps/web/' },
      to: { path: '^(apps/(api|host)|prisma)/' },
    },
    {
      name: 'api-is-not-hosted-by-its-own-hand',
      severity: 'error',
      from: { path: '^apps/api/', pathNot: ['\\.test\\.ts$', '^apps/api/src/commands/'] },
      to: { path: '^(apps/(web|host)|tests|prisma/(migrate|demo))/' },
    },
    {
      name: 'features-meet-at-their-index',
      comment: 'A feature may change its inside without asking the others.',
      severity: 'error',
      from: { path: '^apps/api/src/features/([^/]+)/', pathNot: '\\.test\\.ts$' },
      to: {
        path: '^apps/api/src/features/([^/]+)/',
        pathNot: ['^apps/api/src/features/$1/', '/index\\.ts$'],
      },
    },
    {
      name: 'nothing-rests-on-tests',
      severity: 'error',
      from: { path: '^(packages|apps|prisma)/', pathNot: '\\.test\\.ts$' },
      to: { path: '^tests/' },
    },
    {
      name: 'everything-imported-exists',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true },
    },
  ],
  options: {
    doNotFollow: { path: ['node_modules', 'dist', 'generated'] },
    exclude: { path: ['(^|/)dist/', '\\.data/'] },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
      extensions: ['.ts', '.tsx', '.mts', '.mjs', '.js', '.json'],
    },
  },
};
