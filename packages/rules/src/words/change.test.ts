import { describe, expect, it } from 'vitest';
import type { Criterion, Item } from '../schema/index.ts';
import { band, cfm, judged, leak, madeItem, pascals, percent, way, type Given } from '../test/made.ts';

describe('what would change a verdict', () => {
  const most: Criterion = { check: 'at-most', quantity: leak, limit: cfm(100) };
  const label = 'total duct leakage at 25 Pa, all ducts of the house';
  const upper = `${label.charAt(0).toUpperCase()}${label.slice(1)}`;
  const inside: Criterion = { check: 'is', quantity: 'house.allDuctsInside', value: true };
  const one = (parts: Partial<Item>) => madeItem('duct-leakage-total', { options: way(most), ...parts });
  const tight = { exemption: 'tight', title: 'Tight enough', require: [{ ...most, limit: cfm(20) }] };

  it.each<[string, Item, Given, string[]]>([
    [
      'a pass ends beyond its limit',
      one({}),
      { measured: { leakageAt25: 90 } },
      [`Fails with ${label} above 100 cfm.`],
    ],
    [
      'a pass between two ends on either side',
      one({ options: way({ check: 'between', quantity: leak, low: cfm(50), high: cfm(100) }) }),
      { measured: { leakageAt25: 90 } },
      [`Fails with ${label} above 100 cfm.`, `Fails with ${label} below 50 cfm.`],
    ],
    [
      'a pass above its least ends below it',
      one({ options: way({ check: 'at-least', quantity: leak, limit: cfm(50) }) }),
      { measured: { leakageAt25: 90 } },
      [`Fails with ${label} below 50 cfm.`],
    ],
    [
      'an exemption ends beyond its limit',
      one({ exemptions: [tight] }),
      { measured: { leakageAt25: 10 } },
      [`The exemption ends with ${label} above 20 cfm.`],
    ],
    [
      'a pass by facts is not changed by readings',
      one({ options: way({ ...inside, value: false }) }),
      {},
      [],
    ],
    [
      'what does not apply is not changed by readings',
      one({ appliesWhen: [inside] }),
      { measured: { leakageAt25: 90 } },
      [],
    ],
    [
      'a wait ends with what is missing, each on its own',
      one({ options: way(most, { check: 'recorded', quantity: 'house.bedrooms' }) }),
      { house: { bedrooms: null } },
      [`Not yet measured: ${label}.`, 'Not entered in the house’s file: number of bedrooms.'],
    ],
    [
      'a wait whether it applies ends with that',
      one({ appliesWhen: [inside] }),
      { house: { allDuctsInside: null } },
      ['Not entered in the house’s file: all ducts and air handlers visibly inside conditioned space.'],
    ],
    [
      'a wait for an exemption ends with what that misses',
      one({ exemptions: [{ exemption: 'in', title: 'Inside', require: [inside] }] }),
      { house: { allDuctsInside: null }, measured: { leakageAt25: 110 } },
      ['Not entered in the house’s file: all ducts and air handlers visibly inside conditioned space.'],
    ],
    [
      'a fail is mended by the reading that would do',
      one({}),
      { measured: { leakageAt25: 110 } },
      [`${upper}: at most 100 cfm.`],
    ],
    [
      'a fail by facts is not mended by readings',
      one({ options: way(inside, most) }),
      { measured: { leakageAt25: 110 } },
      [],
    ],
    [
      'a fail may be mended by an exemption',
      one({ exemptions: [tight] }),
      { measured: { leakageAt25: 110 } },
      [`${upper}: at most 100 cfm.`, `Exempt with ${label}: at most 20 cfm.`],
    ],
    [
      'a fail of two criteria needs both',
      one({ options: way(most, { check: 'at-least', quantity: leak, limit: cfm(200) }) }),
      { measured: { leakageAt25: 150 } },
      [`${upper}: at most 100 cfm and ${label}: at least 200 cfm.`],
    ],
  ])('%s', (_name, item, given, words) => {
    expect(judged(item, given).trace.wouldChange).toEqual(words);
  });

  const opening: Criterion = {
    check: 'at-least',
    quantity: 'measured.freeAreaPerFlow',
    limit: { kind: 'constant', value: 1, unit: 'in2/cfm' },
  };
  const pressure: Criterion = { check: 'at-most', quantity: 'measured.pressure', limit: pascals(3) };
  const other = (...require: Criterion[]) =>
    madeItem('bedroom-pressure-relief', {
      options: [...way(pressure), { option: 'other', title: 'The other way', require }],
    });
  const failed = 'Bedroom pressure with the door closed: at most 3 Pa.';
  const area = 'free area of grilles, jumper ducts and door undercut';

  it.each<[string, Item, string]>([
    ['at least so much', other(opening), `The other way: measure ${area}, at least 1 in² per cfm.`],
    [
      'at most so much',
      other({ ...opening, check: 'at-most' }),
      `The other way: measure ${area}, at most 1 in² per cfm.`,
    ],
    [
      'so much of several',
      other(opening, { check: 'recorded', quantity: 'measured.freeArea' }),
      `The other way: measure ${area}, at least 1 in² per cfm and ${area}.`,
    ],
    [
      'a share, which needs the other figure first',
      other({
        check: 'at-most-share-of',
        quantity: 'measured.freeArea',
        of: 'measured.freeArea',
        limit: percent(90),
      }),
      `The other way: measure ${area}.`,
    ],
  ])('a fail may be mended by a way that nobody began: measure %s', (_name, item, words) => {
    expect(judged(item, { measured: { pressure: 4 } }).trace.wouldChange).toEqual([failed, words]);
  });

  it('keeps the guard band from its limits', () => {
    const verdict = (parts: Criterion) =>
      judged(one({ options: way(parts) }), { measured: { leakageAt25: 75 } }, { u: 5, decision: band });
    expect(
      verdict({ check: 'between', quantity: leak, low: cfm(50), high: cfm(100) }).trace.wouldChange,
    ).toEqual([`Fails with ${label} above 90 cfm.`, `Fails with ${label} below 60 cfm.`]);
  });
});
