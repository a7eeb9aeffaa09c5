import { describe, expect, it } from 'vitest';
import { opened, refusedWith } from '../testing/opened.ts';
import type { CodeFigure } from './code-figure.ts';
import { codeLimit, type CodeLimitOptions, meetsCodeLimit, readClimateZone } from './code-limit.ts';
import { energyCodeFigures } from './energy-code-figures.ts';
import { seenAmendments } from './envelope-figures.ts';

const envelope = 'envelope-air-changes';

describe('envelope limits', () => {
  it.each([
    // 2009 by docslib, 2012 by a trade journal, 2015 by an industry page, 2018 as quoted in an article, 2021 from
    // zone 3 on by a secondary page (seen)
    ['2009', '1A', 7, true],
    ['2009', '8', 7, true],
    ['2012', '2A', 5, true],
    ['2012', '3C', 3, true],
    ['2015', '1', 5, true],
    ['2015', '5A', 3, true],
    ['2018', '2B', 5, true],
    ['2018', '8', 3, true],
    ['2021', '3A', 3, true],
    ['2021', '7', 3, true],
    // from memory
    ['2021', '0A', 5, false],
    ['2021', '2A', 5, false],
    ['2024', '2A', 4, false],
    ['2024', '5A', 3, false],
    ['2024', '6A', 2.5, false],
  ] as const)('of %s in zone %s is %s air changes (confirmed: %s)', (edition, zone, limit, confirmed) => {
    const found = opened(codeLimit(edition, envelope, zone));
    expect(found).toMatchObject({ limit, unit: '1/h', edition, source: { confirmed } });
    expect(found.check).toBe(edition === '2009' ? 'below' : 'at-most');
    expect(found.remarks.includes('not confirmed: the text of the code was not seen')).toBe(!confirmed);
    expect(found.remarks).toContain('jurisdictions amend the code; the local limit goes first');
  });

  it('have a cap for every path from 2021 on', () => {
    expect(opened(codeLimit('2021', envelope, '5A', { path: 'cap' }))).toMatchObject({
      limit: 5,
      path: 'cap',
    });
    expect(opened(codeLimit('2024', envelope, '5A', { path: 'cap' })).limit).toBe(4);
    expect(refusedWith(codeLimit('2018', envelope, '5A', { path: 'cap' }))).toBe('no-limit at kind');
    expect(opened(codeLimit('2021', envelope, '5A', { path: 'cap' })).remarks.at(-1)).toContain('0.28');
  });

  it('know no zone 0 before 2021 rather than take its neighbour’s', () => {
    expect(refusedWith(codeLimit('2018', envelope, '0A'))).toBe('no-limit at kind');
  });
});

describe('duct limits', () => {
  const kinds = {
    rough: 'duct-rough-with-air-handler',
    noHandler: 'duct-rough-without-air-handler',
    total: 'duct-final-total',
    outdoors: 'duct-final-outdoors',
  } as const;

  it.each([
    ['2009', 6, 4, 12, 8],
    ['2012', 4, 3, 4, null],
    ['2015', 4, 3, 4, null],
    ['2018', 4, 3, 4, null],
    ['2021', 4, 3, 4, null],
    ['2024', 4, 3, 4, null],
  ] as const)(
    'of %s are %s and %s rough, %s in total and %s to outdoors',
    (edition, rough, noHandler, total, outdoors) => {
      const limit = (kind: keyof typeof kinds) => codeLimit(edition, kinds[kind], '4A');
      expect(opened(limit('rough'))).toMatchObject({ limit: rough, unit: 'cfm/100ft2' });
      expect(opened(limit('noHandler')).limit).toBe(noHandler);
      expect(opened(limit('total')).limit).toBe(total);
      if (outdoors === null) expect(refusedWith(limit('outdoors'))).toBe('no-limit at kind');
      else expect(opened(limit('outdoors')).limit).toBe(outdoors);
    },
  );

  it('ask for no test of ducts inside up to 2018, and 8 from 2021 on', () => {
    for (const edition of ['2009', '2012', '2015', '2018'] as const) {
      const found = opened(codeLimit(edition, kinds.total, '4A', { allInside: true }));
      expect(found.limit).toBeNull();
      expect(meetsCodeLimit(30, found)).toBe(true);
    }
    expect(opened(codeLimit('2009', kinds.outdoors, '4A', { allInside: true })).limit).toBeNull();
    expect(refusedWith(codeLimit('2012', kinds.outdoors, '4A', { allInside: true }))).toBe(
      'no-limit at kind',
    );
    expect(opened(codeLimit('2021', kinds.total, '4A', { allInside: true })).limit).toBe(8);
    expect(opened(codeLimit('2021', kinds.rough, '4A', { allInside: true })).limit).toBe(4);
    expect(opened(codeLimit('2024', kinds.rough, '4A', { allInside: true })).limit).toBe(8);
    expect(opened(codeLimit('2024', kinds.noHandler, '4A', { allInside: true })).limit).toBe(6);
  });

  it('do not differ by zone', () => {
    const zones = ['1A', '3B', '5A', '8'];
    expect(new Set(zones.map((zone) => opened(codeLimit('2018', kinds.total, zone)).limit)).size).toBe(1);
  });
});

describe('amendments', () => {
  const florida: CodeLimitOptions = { jurisdiction: 'Florida', amendments: seenAmendments };

  it('go before the published edition in their jurisdiction only', () => {
    const found = opened(codeLimit('2018', envelope, '2A', florida));
    expect(found).toMatchObject({ limit: 7, edition: '2018', jurisdiction: 'Florida' });
    expect(found.remarks[0]).toBe('amended in Florida');
    expect(
      opened(codeLimit('2018', envelope, '4C', { ...florida, jurisdiction: 'Washington State' })).limit,
    ).toBe(5);
    expect(opened(codeLimit('2018', envelope, '2A', { amendments: seenAmendments })).limit).toBe(5);
    const elsewhere = opened(codeLimit('2018', envelope, '2A', { ...florida, jurisdiction: 'elsewhere' }));
    expect(elsewhere.limit).toBe(5);
    expect(elsewhere.remarks).toContain(
      'no amendment for elsewhere was given; this is the published edition',
    );
  });

  it('of the company hold everywhere, for their own edition and zone', () => {
    const own: CodeFigure = {
      edition: '2018',
      kind: envelope,
      zones: [3, 5],
      limit: 2,
      check: 'at-most',
      unit: '1/h',
      section: 'company',
      source: { kind: 'common-practice', citation: 'the company', confirmed: true },
    };
    const found = opened(codeLimit('2018', envelope, '5A', { amendments: [own] }));
    expect(found).toMatchObject({ limit: 2, zone: { number: 5, moisture: 'A' } });
    expect(found.remarks).toEqual(['amended by the company']);
    expect(opened(codeLimit('2018', envelope, '6A', { amendments: [own] })).limit).toBe(3);
    expect(opened(codeLimit('2015', envelope, '5A', { amendments: [own] })).limit).toBe(3);
  });
});

describe('climate zones', () => {
  it.each([
    ['5A', 5, 'A'],
    [' 4c ', 4, 'C'],
    ['8', 8, null],
    ['0B', 0, 'B'],
    ['marine 4', 4, 'C'],
    ['Marine 4C', 4, 'C'],
  ])('are read from %s', (text, number, moisture) => {
    expect(opened(readClimateZone(text))).toEqual({ number, moisture });
  });

  it.each(['', '9', '5D', '55', 'A5', '-1', 'marine 4A', 'marine'])('are not read from "%s"', (text) => {
    expect(refusedWith(readClimateZone(text))).toBe('bad-zone at zone');
    expect(refusedWith(codeLimit('2018', envelope, text))).toBe('bad-zone at zone');
  });
});

describe('the code limits as a whole', () => {
  it('hold at the limit, below it where the code says so, and never for no number', () => {
    const seven = opened(codeLimit('2009', envelope, '4A'));
    expect([6.99, 7].map((reading) => meetsCodeLimit(reading, seven))).toEqual([true, false]);
    const three = opened(codeLimit('2018', envelope, '4A'));
    expect([3, 3.0000001, NaN].map((reading) => meetsCodeLimit(reading, three))).toEqual([
      true,
      false,
      false,
    ]);
  });

  it('are each found exactly once for every edition, kind, zone, path and place of the ducts', () => {
    for (const one of energyCodeFigures)
      for (const two of energyCodeFigures) {
        if (one === two || one.edition !== two.edition || one.kind !== two.kind || one.path !== two.path)
          continue;
        const apart = one.zones[1] < two.zones[0] || two.zones[1] < one.zones[0];
        const inside =
          one.allInside !== undefined && two.allInside !== undefined && one.allInside !== two.allInside;
        expect(apart || inside).toBe(true);
      }
  });

  it('are confirmed only where a text was seen', () => {
    for (const { source } of [...energyCodeFigures, ...seenAmendments]) {
      expect(source.confirmed).toBe(source.kind === 'published');
      expect(source.citation.includes('from memory')).toBe(!source.confirmed);
    }
  });

  it('refuse what is not known', () => {
    expect(refusedWith(codeLimit('2006' as '2009', envelope, '4A'))).toBe('unknown-choice at edition');
    expect(refusedWith(codeLimit('2018', 'roof' as typeof envelope, '4A'))).toBe('unknown-choice at kind');
    expect(refusedWith(codeLimit('2018', envelope, '4A', { path: 'x' as 'cap' }))).toBe(
      'unknown-choice at path',
    );
  });
});
