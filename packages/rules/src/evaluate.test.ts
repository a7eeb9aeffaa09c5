import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileDecisions, decide } from './compile/set.ts';
import { compileRuleSet, evaluate } from './evaluate.ts';
import { explain } from './explain.ts';
import { factsOf, itemOf, measuredValue, type Case } from './test/cases.ts';
import { commonPractice, companyStrict, shippedSets } from './test/sets.ts';
import type { Facts, Scorecard, Status } from './types.ts';

const judge = compileRuleSet(commonPractice);

function given(item: string, facts: Case['given']): Facts {
  return factsOf({ case: '', given: facts, expect: { status: 'pass' } }, itemOf(commonPractice, item));
}

function statusOf(item: string, facts: Facts): Status {
  return judge(facts).verdicts.find((each) => each.item === item)!.status;
}

const sorted = ({ verdicts }: Scorecard) =>
  [...verdicts].sort((a, b) => `${a.item}/${a.subjectId}`.localeCompare(`${b.item}/${b.subjectId}`));

const ductedSystems = (count: number): Facts => {
  const base = given('duct-leakage-total', { measured: { leakageAt25: 100 } });
  const systems = Array.from({ length: count }, (_, i) => ({
    id: `s${i}`,
    kind: 'system' as const,
    label: `System ${i}`,
    facts: { hasDucts: true },
    reported: { supplyStatic: 0.1 + i / 100 },
    reportedHidden: i === 1,
  }));
  const readings = systems.map(({ id }, i) => [
    id,
    measuredValue('supply-static', 'staticPressure', 0.1 + i / 50, 'system'),
  ]);
  return {
    ...base,
    subjects: [...base.subjects, ...systems],
    measured: { ...base.measured, 'supply-static': Object.fromEntries(readings) },
  };
};

describe('a scorecard', () => {
  it('is plain data: it survives JSON unchanged', () => {
    for (const set of shippedSets) {
      const card = evaluate(set, ductedSystems(3));
      expect(JSON.parse(JSON.stringify(card))).toEqual(card);
    }
  });

  it('does not hang on the order of subjects or items', () => {
    const facts = ductedSystems(4);
    const wanted = sorted(judge(facts));
    fc.assert(
      fc.property(
        fc.shuffledSubarray(facts.subjects, { minLength: facts.subjects.length }),
        fc.shuffledSubarray(commonPractice.items, { minLength: commonPractice.items.length }),
        (subjects, items) => {
          const card = evaluate({ ...commonPractice, items }, { ...facts, subjects });
          const same = sorted(card).map((each) => ({ ...each, dependsOn: [...each.dependsOn].sort() }));
          expect(same).toEqual(wanted.map((each) => ({ ...each, dependsOn: [...each.dependsOn].sort() })));
        },
      ),
      { numRuns: 30 },
    );
  });

  it('counts its verdicts and releases no house that waits', () => {
    const card = judge(ductedSystems(2));
    expect(Object.values(card.counts).reduce((sum, each) => sum + each, 0)).toBe(card.verdicts.length);
    expect(card.releasable).toBe(false);
    expect(evaluate({ ...commonPractice, items: [] }, ductedSystems(1)).releasable).toBe(false);
  });

  it('lists a house without a kitchen as waiting for one', () => {
    const kitchen = judge(ductedSystems(1)).verdicts.find((each) => each.item === 'kitchen-exhaust');
    expect(kitchen).toMatchObject({
      status: 'waiting',
      subjectId: 'house',
      reason: "The house's file lists no kitchen.",
    });
  });

  it('says on which items a verdict rests', () => {
    const verdicts = judge(ductedSystems(1)).verdicts;
    const dependsOn = (item: string) => verdicts.find((each) => each.item === item)?.dependsOn;
    expect(dependsOn('duct-leakage-outdoors')).toEqual(['duct-leakage-total', 'envelope-leakage']);
    expect(dependsOn('duct-leakage-total')).toEqual(['ventilator-duct-leakage']);
    expect(dependsOn('envelope-leakage')).toEqual([]);
  });

  it('never throws on facts with nothing in them', () => {
    for (const set of shippedSets) {
      const house = {
        id: 'house',
        kind: 'house' as const,
        label: 'House',
        facts: {},
        reported: {},
        reportedHidden: false,
      };
      const card = evaluate(set, { house: {}, subjects: [house], measured: {} });
      expect(card.releasable).toBe(false);
      expect(card.counts.pass + card.counts.exempt).toBe(0);
    }
  });

  it('takes a number that is none for a gap', () => {
    const facts = given('duct-leakage-total', { measured: { leakageAt25: NaN } });
    expect(statusOf('duct-leakage-total', facts)).toBe('waiting');
    expect(
      statusOf(
        'supply-static',
        given('supply-static', { reported: { supplyStatic: NaN }, measured: { staticPressure: 0.1 } }),
      ),
    ).toBe('waiting');
  });
});

describe('more leakage', () => {
  const rank: Record<Status, number> = { pass: 0, exempt: 0, 'not-applicable': 0, waiting: 1, fail: 2 };
  const flows = fc.double({ min: 0, max: 500, noNaN: true });

  it('never turns a fail into a pass', () => {
    fc.assert(
      fc.property(flows, flows, flows, (one, two, outdoors) => {
        const [less, more] = [Math.min(one, two), Math.max(one, two)];
        for (const item of ['duct-leakage-total', 'duct-leakage-outdoors']) {
          const at = (total: number) =>
            statusOf(
              item,
              given(item, {
                measured:
                  item === 'duct-leakage-total'
                    ? { leakageAt25: total }
                    : { leakageAt25: outdoors, 'duct-leakage-total.leakageAt25': total },
              }),
            );
          expect(rank[at(more)]).toBeGreaterThanOrEqual(rank[at(less)]);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('passes the stricter set only where it passes the other', () => {
    const strict = compileRuleSet(companyStrict);
    fc.assert(
      fc.property(flows, (total) => {
        const facts = given('duct-leakage-total', { measured: { leakageAt25: total } });
        const strictly = strict(facts).verdicts.find((each) => each.item === 'duct-leakage-total')!.status;
        if (strictly === 'pass') expect(statusOf('duct-leakage-total', facts)).toBe('pass');
      }),
      { numRuns: 60 },
    );
  });
});

describe('the blind second reading', () => {
  it('leaves no trace of the hidden figure', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 10_001, max: 99_999 }),
        fc.double({ min: 0.01, max: 2, noNaN: true }),
        (digits, read) => {
          const figure = digits / 100_000;
          const facts = given('supply-static', {
            reported: { supplyStatic: figure },
            hidden: true,
            measured: { staticPressure: read },
          });
          const text = JSON.stringify(judge(facts));
          for (const share of [1, 1.1, 1.05]) expect(text).not.toContain(String(figure * share).slice(0, 7));
          expect(text).toContain('stays hidden');
        },
      ),
      { numRuns: 60 },
    );
  });

  it('gives the same scorecard whatever the hidden figure is', () => {
    const card = (figure: number) =>
      judge(
        given('supply-static', {
          reported: { supplyStatic: figure },
          hidden: true,
          measured: { staticPressure: 0.1 },
        }),
      );
    expect(card(0.05)).toEqual(card(0.5));
  });

  it('hides only the figures named, when some are', () => {
    const facts = given('return-static', {
      reported: { returnStatic: 0.1, supplyStatic: 0.1 },
      hidden: true,
      measured: { staticPressure: 0.1 },
    });
    const subjects = facts.subjects.map((each) => ({ ...each, hiddenFigures: ['supplyStatic'] }));
    expect(statusOf('return-static', { ...facts, subjects })).toBe('pass');
  });
});

describe('the trace', () => {
  it('holds inputs, options and what would change the verdict', () => {
    const facts = given('duct-leakage-total', {
      house: { conditionedFloorArea: 4000 },
      measured: { leakageAt25: 232 },
    });
    const verdict = judge(facts).verdicts.find((each) => each.item === 'duct-leakage-total')!;
    expect(verdict.reason).toBe('232 cfm; limit 240 cfm (6 cfm per 100 ft² of conditioned floor).');
    expect(verdict.trace.decidedBy).toBe('total');
    expect(verdict.trace.wouldChange).toEqual([
      'Fails with total duct leakage at 25 Pa, all ducts of the house above 240 cfm.',
    ]);
    expect(verdict.trace.inputs).toContainEqual({
      name: 'house.conditionedFloorArea',
      label: 'conditioned floor area',
      value: 4000,
      unit: 'ft2',
      from: 'house',
    });
    expect(verdict.headline).toMatchObject({ value: 232, high: 240, unit: 'cfm', holds: true, needed: null });
  });

  it('is made from the decision alone, so it can be made later', () => {
    const compiled = compileDecisions(commonPractice);
    const facts = ductedSystems(2);
    expect(decide(compiled, facts).map((each) => explain(each, compiled))).toEqual(judge(facts).verdicts);
  });
});
