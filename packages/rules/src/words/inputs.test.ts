import { describe, expect, it } from 'vitest';
import { compileRuleSet } from '../evaluate.ts';
import type { Criterion } from '../schema/index.ts';
import {
  band,
  cfm,
  ducts,
  first,
  judged,
  leak,
  madeFacts,
  madeItem,
  pascals,
  percent,
  room,
  setOf,
  statics,
  way,
} from '../test/made.ts';

const share: Criterion = {
  check: 'at-most-share-of',
  quantity: 'measured.staticPressure',
  of: 'reported.supplyStatic',
  limit: percent(110),
};

describe('an input that the installer signed', () => {
  const facts = madeFacts(statics(share), {
    reported: { supplyStatic: 0.1 },
    measured: { staticPressure: 0.1 },
  });
  const inputs = (revisions?: Record<string, number>) =>
    compileRuleSet(setOf(statics(share)))({
      ...facts,
      subjects: facts.subjects.map((each) => ({
        ...each,
        ...(revisions ? { reportedRevisions: revisions } : {}),
      })),
    }).verdicts[0]!.trace.inputs.map(({ name, revision }) => [name, revision]);

  it('says of which revision it is, where there are several', () => {
    expect(inputs({ supplyStatic: 2, returnStatic: 3 })).toEqual([
      ['measured.staticPressure', undefined],
      ['reported.supplyStatic', 2],
    ]);
  });

  it('says nothing of revisions where there is one', () => {
    expect(inputs({ staticPressure: 4 })).toEqual(inputs());
    expect(inputs().map(([, revision]) => revision)).toEqual([undefined, undefined]);
  });
});

describe('the readings behind a verdict', () => {
  it('are those of the item’s own tests, also where its criteria do not name them', () => {
    const item = {
      ...madeItem('bedroom-pressure-relief', {
        options: way({ check: 'at-most', quantity: 'measured.pressure', limit: pascals(3) }),
      }),
    };
    const verdict = judged(item, { measured: { pressure: 2, freeArea: 100 } });
    expect(verdict.trace.readingIds).toEqual(['bedroom-pressure-pressure', 'bedroom-relief-freeArea']);
  });

  it('are none where nothing was read, and a house’s beside a room’s', () => {
    const item = room(
      { check: 'at-most', quantity: 'measured.pressure', limit: pascals(3) },
      { check: 'recorded', quantity: 'measured.duct-leakage-total.leakageAt25' },
    );
    expect(judged(item, {}).trace.readingIds).toEqual([]);
    expect(
      judged(item, { measured: { pressure: 2, 'duct-leakage-total.leakageAt25': 60 } }).trace.readingIds,
    ).toEqual(['bedroom-pressure-pressure', 'duct-leakage-total-leakageAt25']);
  });
});

describe('a reading that does not count without a word why', () => {
  it('is said to be that', () => {
    const facts = madeFacts(statics(share), {
      reported: { supplyStatic: 0.1 },
      measured: { staticPressure: 1 },
    });
    facts.measured['supply-static']!['one']!.counts = false;
    const verdict = compileRuleSet(setOf(statics(share)))(facts).verdicts[0]!;
    expect(first(verdict).words).toBe('the reading of the supply static pressure does not count');
    expect(verdict.status).toBe('waiting');
  });
});

describe('the words of several', () => {
  it('facts for which an item does not apply stand side by side, and only those', () => {
    const item = {
      ...ducts({ check: 'recorded', quantity: leak }),
      appliesWhen: [
        { check: 'is', quantity: 'house.hasDucts', value: true },
        { check: 'is', quantity: 'house.storeys', value: 2 },
        { check: 'is', quantity: 'house.foundation', value: 'basement' },
      ] as Criterion[],
    };
    expect(judged(item, {}).reason).toBe('Does not apply: number of storeys: 1; foundation: slab.');
  });

  it('numbers of an exemption stand side by side', () => {
    const item = {
      ...ducts({ check: 'at-most', quantity: leak, limit: cfm(100) }),
      exemptions: [
        {
          exemption: 'tight',
          title: 'Tight and small',
          require: [
            { check: 'at-most', quantity: leak, limit: cfm(20) },
            {
              check: 'at-least',
              quantity: 'house.bedrooms',
              limit: { kind: 'constant', value: 1, unit: '1' },
            },
          ] as Criterion[],
        },
      ],
    };
    expect(judged(item, { measured: { leakageAt25: 10 } }).reason).toBe(
      'Exempt: Tight and small (total duct leakage at 25 Pa, all ducts of the house: 10 cfm; limit 20 cfm; number of bedrooms: 3; at least 1 needed).',
    );
  });
});

describe('a guard band of no width', () => {
  it('leaves the limit as it is, in words too', () => {
    const verdict = judged(
      ducts({ check: 'at-most', quantity: leak, limit: cfm(100) }),
      { measured: { leakageAt25: 110 } },
      { u: 5, decision: { ...band, factor: 0 } as typeof band },
    );
    expect(first(verdict)).toMatchObject({
      words: '110 cfm; limit 100 cfm',
      needed: 'at most 100 cfm',
      guardBand: 0,
    });
  });
});

describe('the chance beyond a limit', () => {
  const beyond = (limit: number, magnitude: boolean | undefined, pressure: number) =>
    first(
      judged(
        room({
          check: 'at-most',
          quantity: 'measured.pressure',
          limit: pascals(limit),
          ...(magnitude === undefined ? {} : { magnitude }),
        }),
        { measured: { pressure } },
        { u: 1 },
      ),
    ).chanceOutside;

  // Φ(−3) = 0.00135 above 3 and, without the sign, as much below −3; computed independently
  it.each([
    ['above only, with its sign', undefined, 0.00135],
    ['above only, where the sign is said to count', false, 0.00135],
    ['on both sides, without its sign', true, 0.0027],
  ])('is %s', (_what, magnitude, chance) => {
    expect(beyond(3, magnitude, 0)).toBeCloseTo(chance, 5);
  });

  it('is all of it below zero, where no size can be that small', () => {
    expect(beyond(-3, true, 0)).toBeCloseTo(0.99865, 5);
  });
});
