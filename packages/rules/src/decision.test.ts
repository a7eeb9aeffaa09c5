import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileRuleSet } from './evaluate.ts';
import { factsOf, itemOf, type Case } from './test/cases.ts';
import { commonPractice } from './test/sets.ts';
import type { DecisionRule, Facts, ItemVerdict, Status } from './types.ts';

const judge = compileRuleSet(commonPractice);

/** The verdict on one item when its reading has a standard uncertainty, in the reading's unit. */
function verdictOf(
  item: string,
  given: Case['given'],
  u: number | null,
  decision?: DecisionRule,
): ItemVerdict {
  const facts = factsOf({ case: '', given, expect: { status: 'pass' } }, itemOf(commonPractice, item));
  const measured: Facts['measured'] = {};
  for (const [test, bySubject] of Object.entries(facts.measured))
    measured[test as keyof Facts['measured']] = Object.fromEntries(
      Object.entries(bySubject).map(([id, each]) => [
        id,
        {
          ...each,
          values: Object.fromEntries(
            Object.entries(each.values).map(([key, value]) => [
              key,
              { ...value, standardUncertainty: u, expandedUncertainty: u === null ? null : 2 * u },
            ]),
          ),
        },
      ]),
    );
  const found = judge({ ...facts, measured, decision }).verdicts.find((each) => each.item === item);
  return found!;
}

// 4,000 ft² at 6 cfm per 100 ft²: the limit is 240 cfm
const ducts = (cfm: number, u: number | null, decision?: DecisionRule) =>
  verdictOf(
    'duct-leakage-total',
    { house: { conditionedFloorArea: 4000 }, measured: { leakageAt25: cfm } },
    u,
    decision,
  );
// at least 50 cfm
const bath = (cfm: number, u: number, decision?: DecisionRule) =>
  verdictOf('bath-exhaust', { measured: { intermittentFlow: cfm } }, u, decision);
const band = (factor: number): DecisionRule => ({ rule: 'guard-band', factor });

const readings = fc.double({ min: 100, max: 400, noNaN: true });
const spreads = fc.double({ min: 0.5, max: 40, noNaN: true });
const rank: Partial<Record<Status, number>> = { pass: 0, fail: 1 };

describe('a pass close to its limit', () => {
  it('says so, with the chance that the true value fails', () => {
    // Φ(−7.5 / 5) = 0.0668, computed independently
    const verdict = ducts(232.5, 5);
    expect(verdict).toMatchObject({
      status: 'pass',
      closeToLimit: true,
      closeWords: 'Passes, but close to the limit: 7 % chance that the true value is above.',
    });
    expect(verdict.headline!.chanceOutside).toBeCloseTo(0.0668072, 6);
    expect(verdict.headline).toMatchObject({
      standardUncertainty: 5,
      expandedUncertainty: 10,
      guardBand: null,
    });
    expect(verdict.trace.decisionRule).toEqual({ rule: 'simple-acceptance' });
  });

  it('says on which side the true value would fail', () => {
    expect(bath(52, 4).closeWords).toBe(
      'Passes, but close to the limit: 31 % chance that the true value is below.',
    );
  });

  it('is one exactly when the distance is smaller than the expanded uncertainty', () => {
    fc.assert(
      fc.property(readings, spreads, (cfm, u) => {
        const { status, closeToLimit, headline } = ducts(cfm, u);
        expect(headline!.closeToLimit).toBe(Math.abs(240 - cfm) < 2 * u);
        expect(closeToLimit).toBe(status === 'pass' && Math.abs(240 - cfm) < 2 * u);
      }),
      { numRuns: 200 },
    );
  });

  it('has chances that mirror each other on the two sides of the limit', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 100, noNaN: true }), spreads, (off, u) => {
        const inside = ducts(240 - off, u).headline!.chanceOutside!;
        const outside = ducts(240 + off, u).headline!.chanceOutside!;
        expect(inside + outside).toBeCloseTo(1, 9);
      }),
      { numRuns: 100 },
    );
  });

  it('is unknown where no uncertainty is', () => {
    expect(ducts(239.9, null)).toMatchObject({
      closeToLimit: false,
      closeWords: null,
      headline: { chanceOutside: null, standardUncertainty: null },
    });
  });

  it('counts a pressure without its sign on both sides of zero', () => {
    const verdict = verdictOf('bedroom-pressure-relief', { measured: { pressure: -0.3 } }, 2);
    // Φ(−2.7 / 2) + Φ(−3.3 / 2), computed independently
    expect(verdict.headline!.chanceOutside).toBeCloseTo(0.0885081 + 0.0494715, 5);
  });
});

describe('a guard band', () => {
  it('refuses what is within the limit but not by the band, and says so', () => {
    const verdict = ducts(232, 5, band(1));
    expect(verdict).toMatchObject({
      status: 'fail',
      reason:
        '232 cfm; limit 240 cfm (6 cfm per 100 ft² of conditioned floor); within the limit, but not by the guard band of 10 cfm: at most 230 cfm is accepted.',
      headline: { high: 240, guardBand: 10, needed: 'at most 230 cfm' },
    });
    expect(ducts(230, 5, band(1)).status).toBe('pass');
    expect(bath(57, 4, band(1)).reason).toContain('not by the guard band of 8 cfm');
  });

  it('never turns a fail into a pass as it grows', () => {
    const factors = fc.double({ min: 0, max: 3, noNaN: true });
    fc.assert(
      fc.property(readings, spreads, factors, factors, (cfm, u, one, two) => {
        const [narrow, wide] = [Math.min(one, two), Math.max(one, two)];
        const at = (factor: number) => rank[ducts(cfm, u, band(factor)).status]!;
        expect(at(wide)).toBeGreaterThanOrEqual(at(narrow));
        expect(at(narrow)).toBeGreaterThanOrEqual(rank[ducts(cfm, u).status]!);
      }),
      { numRuns: 100 },
    );
  });

  it('of no width is simple acceptance', () => {
    fc.assert(
      fc.property(readings, spreads, (cfm, u) => {
        expect(ducts(cfm, u, band(0)).status).toBe(ducts(cfm, u).status);
      }),
      { numRuns: 50 },
    );
  });

  it('that cannot be worked out is told', () => {
    const verdict = ducts(239, null, band(1));
    expect(verdict.status).toBe('pass');
    expect(verdict.trace.remarks.join()).toContain('no guard band was kept');
  });
});

describe('what a failed item takes', () => {
  it('is the exact reading that passes', () => {
    const { takes } = ducts(260, 5);
    expect(takes).toEqual([
      {
        reading: {
          name: 'measured.leakageAt25',
          label: 'total duct leakage at 25 Pa, all ducts of the house',
          value: 240,
          unit: 'cfm',
          bound: 'at-most',
          now: 260,
        },
        nextOption: null,
        words: 'Total duct leakage at 25 Pa, all ducts of the house: at most 240 cfm, 20 cfm less than now.',
      },
    ]);
    expect(ducts(200, 5).takes).toEqual([]);
  });

  it('is in the raw quantity, and names the other way', () => {
    const { takes } = verdictOf('bedroom-pressure-relief', { measured: { pressure: 4 } }, 0.1);
    expect(takes[0]).toMatchObject({ reading: { value: 3, unit: 'Pa', bound: 'at-most' }, nextOption: null });
    // the plain house's bedroom has 100 cfm of supply air and 1 in² per cfm is asked
    expect(takes[1]).toMatchObject({
      reading: { name: 'measured.freeArea', value: 100, unit: 'in2', bound: 'at-least' },
      nextOption: 'free-area',
    });
    expect(takes[1]!.words).toMatch(/^Or – Free area .* – measure .*: at least 100 in²\.$/);
    const envelope = verdictOf('envelope-leakage', { measured: { airChangesAt50: 5 } }, null);
    // 4 per hour × 16,000 ft³ / 60
    expect(envelope.takes[0]!.reading!.value).toBeCloseTo(1066.6667, 3);
    expect(envelope.takes[0]!.words).toContain('at most 1,066.66 cfm');
  });

  it('passes when it is read, with and without a guard band', () => {
    const factors = fc.constantFrom(null, 0.5, 1, 1.5);
    fc.assert(
      fc.property(readings, fc.double({ min: 0.5, max: 20, noNaN: true }), factors, (cfm, u, factor) => {
        const decision = factor === null ? undefined : band(factor);
        const { status, takes } = ducts(cfm, u, decision);
        if (status === 'fail') expect(ducts(takes[0]!.reading!.value, u, decision).status).toBe('pass');
        const fan = bath(cfm / 8, u / 10, decision);
        if (fan.status !== 'fail') return;
        const needed = fan.takes.find((each) => each.reading?.bound === 'at-least')!.reading!.value;
        expect(bath(needed, u / 10, decision).status).toBe('pass');
      }),
      { numRuns: 200 },
    );
  });
});

describe('rater and installer', () => {
  const supply = (read: number, reported: number) =>
    verdictOf(
      'supply-static',
      { reported: { supplyStatic: reported }, measured: { staticPressure: read } },
      0.0005,
    );

  it('agree within the uncertainty of both, and differ beyond it', () => {
    // U² = (2 × 0.0005)² + (2 × 0.001004 / √3)², 0.25 Pa being assumed of the installer's manometer
    expect(supply(0.0862, 0.085).headline!.agreement).toMatchObject({ verdict: 'agrees' });
    const apart = supply(0.092, 0.085).headline!.agreement!;
    expect(apart).toMatchObject({ verdict: 'differs' });
    expect(apart.expandedUncertainty).toBeCloseTo(0.0015305, 6);
    expect(apart.words).toContain('differs from the reported figure by 0.007 in. w.c.');
  });

  it('share the uncertainty of their ratio', () => {
    // u² = 0.0005² + (1.1 × 0.001004 / √3)²
    expect(supply(0.092, 0.085).headline!.standardUncertainty).toBeCloseTo(0.00081, 5);
  });
});

describe('a limit that nobody confirmed', () => {
  it('is flagged in the trace', () => {
    expect(ducts(200, 5).trace.limitConfirmed).toBe(false);
    expect(bath(60, 1).trace.limitConfirmed).toBe(true);
  });
});
