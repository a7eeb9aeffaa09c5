import { type FigureSource, fromMemory, seen } from '../working/figure-source.ts';
import {
  anyZone,
  type CodeFigure,
  type CodeLimitKind,
  codeLimitKinds,
  type EnergyCodeEdition,
} from './code-figure.ts';
import { jlc } from './envelope-figures.ts';

const rks = seen(
  'a page on duct tightness in 2009, https://www.rksenergyconsulting.net/09ieccducttightness.htm',
);
const basics = seen(
  'a training page on duct testing in 2015 and 2018, https://thehtrc.com/2018/energy-code-basics-duct-testing-4-percent',
);
const insideRemoved = seen(
  'the exception for ducts inside was removed for 2021, https://www.achrnews.com/articles/142954-international-code-council-removes-exception-for-duct-leakage-tests',
);
const makersPage = seen('an equipment maker’s page on the 2021 duct limits (address withheld)');

/** Published limits for duct leakage, cfm at 25 Pa per 100 ft² of conditioned floor, by edition. */
export const ductFigures: readonly CodeFigure[] = [
  ...ducts('2009', '403.2.2', rks, { rough: 6, noHandler: 4, total: 12, outdoors: 8 }).map((figure) => ({
    ...figure,
    note: 'One test is enough: at rough-in, or in the finished house 12 in total or 8 to outdoors.',
  })),
  ...exempt('2009', '403.2.2', rks),
  ...ducts('2012', 'R403.2.2', jlc, { rough: 4, noHandler: 3, total: 4 }),
  ...exempt('2012', 'R403.2.2', insideRemoved),
  ...(['2015', '2018'] as const).flatMap((edition) => [
    ...ducts(edition, 'R403.3.3 and R403.3.4', basics, { rough: 4, noHandler: 3, total: 4 }),
    ...exempt(edition, 'R403.3.3', insideRemoved),
  ]),
  ...ducts(
    '2021',
    'R403.3.5 and R403.3.6',
    fromMemory('IECC 2021 R403.3.6'),
    { rough: 4, noHandler: 3 },
    null,
  ),
  ...ducts('2021', 'R403.3.5 and R403.3.6', makersPage, { total: 4 }, false),
  ...ducts('2021', 'R403.3.5 and R403.3.6', makersPage, { total: 8 }, true),
  ...ducts(
    '2024',
    'Table R403.3.8',
    fromMemory('IECC 2024 Table R403.3.8'),
    { rough: 4, noHandler: 3, total: 4 },
    false,
  ),
  ...ducts(
    '2024',
    'Table R403.3.8',
    fromMemory('IECC 2024 Table R403.3.8'),
    { rough: 8, noHandler: 6, total: 8 },
    true,
  ),
];

interface DuctLimits {
  rough?: number;
  noHandler?: number;
  total?: number;
  outdoors?: number;
}

function ducts(
  edition: EnergyCodeEdition,
  section: string,
  source: FigureSource,
  limits: DuctLimits,
  // Up to 2018 ducts inside are not tested at all, so their limits are those of ducts that are not.
  allInside: boolean | null = false,
): CodeFigure[] {
  const kinds: [CodeLimitKind, number | undefined][] = [
    ['duct-rough-with-air-handler', limits.rough],
    ['duct-rough-without-air-handler', limits.noHandler],
    ['duct-final-total', limits.total],
    ['duct-final-outdoors', limits.outdoors],
  ];
  return kinds.flatMap(([kind, limit]): CodeFigure[] => {
    if (limit === undefined) return [];
    const where = allInside === null ? {} : { allInside };
    return [{ ...ductFigure(edition, kind, section, source), limit, ...where }];
  });
}

function exempt(edition: EnergyCodeEdition, section: string, source: FigureSource): CodeFigure[] {
  const note = 'No test where all ducts and air handlers are inside.';
  return codeLimitKinds
    .filter((kind) => kind !== 'envelope-air-changes')
    .filter((kind) => kind !== 'duct-final-outdoors' || edition === '2009')
    .map((kind) => ({ ...ductFigure(edition, kind, section, source), limit: null, allInside: true, note }));
}

function ductFigure(edition: EnergyCodeEdition, kind: CodeLimitKind, section: string, source: FigureSource) {
  return {
    edition,
    kind,
    zones: anyZone,
    section,
    source,
    check: 'at-most' as const,
    unit: 'cfm/100ft2' as const,
  };
}
