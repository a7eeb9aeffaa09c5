import { fromMemory, seen } from '../working/figure-source.ts';
import { anyZone, type CodeFigure } from './code-figure.ts';

/** Seen for the envelope and the ducts of 2009 and 2012. */
export const jlc = seen(
  'a trade journal’s page on the 2009 and 2012 limits, http://www.jlconline.com/how-to/how-will-you-meet-code-for-air-sealing-and-duct-leakage_o',
);

const association = seen(
  'IECC 2015, 5 in zones 1 and 2 and 3 in zones 3 to 8, by an industry page, https://insulationinstitute.org/author/stacy/page/29',
);

const quoted = seen(
  'IRC 2018 N1102.4.1.2, which is the energy code’s R402.4.1.2, as quoted at http://gomealsgo.com/using-a-blower-door-test-and-interpreting-the-results.html; IECC 2018 with 3 for the zones of one state at https://paenergycode.com/air_leakage/default.html',
);

/** Published limits for the envelope, air changes per hour at 50 Pa, by edition and zone. */
export const envelopeFigures: readonly CodeFigure[] = [
  {
    ...envelope('2009', [1, 8], 7, '402.4.2.1'),
    check: 'below',
    source: seen(
      'IECC 2009 402.4.2.1 as quoted at https://docslib.org/doc/471172/duct-leakage-testing-as-required-by-iecc-2009-energy-code-402-4-air-leakage-mandatory',
    ),
    note: 'A visual inspection is the other option.',
  },
  { ...envelope('2012', [1, 2], 5, 'R402.4.1.2'), source: jlc },
  { ...envelope('2012', [3, 8], 3, 'R402.4.1.2'), source: jlc },
  { ...envelope('2015', [1, 2], 5, 'R402.4.1.2'), source: association },
  { ...envelope('2015', [3, 8], 3, 'R402.4.1.2'), source: association },
  { ...envelope('2018', [1, 2], 5, 'R402.4.1.2'), source: quoted },
  { ...envelope('2018', [3, 8], 3, 'R402.4.1.2'), source: quoted },
  {
    ...envelope('2021', anyZone, 5, 'R402.4.1.2'),
    path: 'cap',
    source: seen(
      'IECC 2021 R402.4.1.2 as at https://forum.nachi.org/t/florida-building-code-requires-blower-door-testing-for-all-residential-dwellings/118484',
    ),
    note: 'Or 0.28 cfm at 50 Pa for each ft² of enclosure.',
  },
  { ...envelope('2021', [0, 2], 5, 'R402.4.1.3'), source: fromMemory('IECC 2021 R402.4.1.3') },
  {
    ...envelope('2021', [3, 8], 3, 'R402.4.1.3'),
    source: seen(
      'IECC 2021, 3.0 from zone 3 on, by a secondary page, https://www.almostanarchitect.com/library/iecc-air-leakage-blower-door',
    ),
  },
  { ...envelope('2024', anyZone, 4, 'R402.5.1.2'), path: 'cap', source: fromMemory('IECC 2024 R402.5.1.2') },
  { ...envelope('2024', [0, 2], 4, 'R402.5.1.3'), source: fromMemory('IECC 2024 R402.5.1.3') },
  { ...envelope('2024', [3, 5], 3, 'R402.5.1.3'), source: fromMemory('IECC 2024 R402.5.1.3') },
  {
    ...envelope('2024', [6, 8], 2.5, 'R402.5.1.3'),
    source: fromMemory('IECC 2024 R402.5.1.3'),
    note: 'A secondary page gives 3.0 from zone 3 on, https://www.almostanarchitect.com/library/iecc-air-leakage-blower-door',
  },
];

/** Amendments that were seen. They show why the jurisdiction decides; each company adds its own. */
export const seenAmendments: readonly CodeFigure[] = [
  {
    ...envelope('any', anyZone, 7, 'state amendment'),
    jurisdiction: 'Florida',
    source: seen(
      'state amendment as at https://forum.nachi.org/t/florida-building-code-requires-blower-door-testing-for-all-residential-dwellings/118484',
    ),
    note: 'Seen without the edition that it amends.',
  },
  {
    ...envelope('any', anyZone, 5, 'state amendment'),
    jurisdiction: 'Washington State',
    source: seen(
      'energy code requirements of the state as a city prints them, https://lfportal.everettwa.gov/WebLink/0/doc/531835/Page20.aspx',
    ),
    note: 'Seen without the edition that it amends.',
  },
];

function envelope(
  edition: CodeFigure['edition'],
  zones: readonly [number, number],
  limit: number,
  section: string,
) {
  const kind = 'envelope-air-changes' as const;
  return { edition, kind, zones, limit, section, check: 'at-most' as const, unit: '1/h' as const };
}
