import { compileRuleSet } from '@countercheck/rules';
import { describe, expect, it } from 'vitest';
import { assess } from './assess.ts';
import { commonPractice, plainFile, reading } from './test/house.ts';
import type { HouseFile } from './types.ts';

const evaluate = compileRuleSet(commonPractice);
const verdictOf = (file: HouseFile, item: string, subjectId: string) =>
  assess(file, evaluate).scorecard.verdicts.find(
    (each) => each.item === item && each.subjectId === subjectId,
  )!;

const supply: HouseFile = {
  ...plainFile,
  readings: [reading('supply-static', 'down', 'manometer', { values: { pressure: 0.092 } })],
};
const flow = (subjectId: string, test: 'duct-leakage-total' | 'ventilator-duct-leakage', cfm: number) =>
  reading(test, subjectId, 'duct-tester', { values: { ductPressure: 25, flow: cfm } });
const ducts: HouseFile = {
  ...plainFile,
  readings: [
    flow('down', 'duct-leakage-total', 60),
    flow('up', 'duct-leakage-total', 40),
    flow('ventilator', 'ventilator-duct-leakage', 19.5),
  ],
};

describe('a house close to a limit', () => {
  it('passes by its file’s default, and says how sure that is', () => {
    const verdict = verdictOf(supply, 'supply-static', 'down');
    // 0.0935 − 0.092 = 0.0015, against √(0.00053² + (1.1 × 0.00058)²) = 0.00083: Φ(−1.81) = 3.5 %
    expect(verdict).toMatchObject({ status: 'pass', closeToLimit: true });
    expect(verdict.closeWords).toMatch(/^Passes, but close to the limit: [34] % chance .* above\.$/);
    expect(verdict.headline!.agreement).toMatchObject({ verdict: 'differs' });
  });

  it('is refused by a company that keeps a guard band', () => {
    const decisionRule = { rule: 'guard-band', factor: 1 } as const;
    const verdict = verdictOf({ ...supply, decisionRule }, 'supply-static', 'down');
    expect(verdict).toMatchObject({ status: 'fail', trace: { decisionRule } });
    expect(verdict.reason).toContain('within the limit, but not by the guard band');
  });

  it('carries the uncertainty of the sum over its systems', () => {
    const verdict = verdictOf(ducts, 'duct-leakage-total', 'house');
    expect(verdict.status).toBe('pass');
    expect(verdict.headline!.standardUncertainty).toBeGreaterThan(0);
    expect(verdict.closeToLimit).toBe(true);
    const failed = verdictOf(
      { ...ducts, readings: [...ducts.readings, flow('up', 'duct-leakage-total', 60)] },
      'duct-leakage-total',
      'house',
    );
    // of two readings of one day the later id counts: 60 + 60 + 19.5 against 120 cfm
    expect(failed.takes[0]).toMatchObject({ reading: { value: 120, unit: 'cfm', bound: 'at-most' } });
  });
});
