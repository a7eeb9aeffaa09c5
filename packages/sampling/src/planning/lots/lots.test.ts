import { describe, expect, it } from 'vitest';
import {
  codeLetter,
  inspectionLevels,
  inspectionSeverities,
  lotPlan,
  nextSeverity,
  switchingRules,
  switchingStart,
  type LotOutcome,
  type SwitchingState,
} from '../../index.ts';
import { limits, published } from './published-plans.ts';
import { codeLetters, lotRows, qualityLimits } from './tables.ts';

/** A lot and a level that lead to the letter, large enough that the sample is no whole lot. */
function lotFor(letter: string) {
  const found = lotRows
    .toReversed()
    .flatMap(([largest, letters]) =>
      inspectionLevels.flatMap((level, at) =>
        letters[at] === letter ? [{ lot: Math.min(largest, 10_000_000), level }] : [],
      ),
    );
  return found[0]!;
}

describe('single plans', () => {
  it.each(inspectionSeverities)('%s: every cell that was seen', (severity) => {
    expect(qualityLimits).toEqual(limits);
    for (const [letter, row] of Object.entries(published[severity])) {
      const plans = limits.map((limit) => {
        const { sample, accept, reject } = lotPlan({ ...lotFor(letter), limit, severity });
        return `${sample}:${accept}/${reject}`;
      });
      expect(plans.join(' '), `${severity} ${letter}`).toBe(row);
    }
    expect(Object.keys(published[severity]).join('')).toBe('ABCDEGHJLMP');
  });

  it('gives the book example: 3201 to 10,000 units, level II, 1.5 → 200, 7/8', () => {
    for (const lot of [3201, 10_000])
      expect(lotPlan({ lot, level: 'II', limit: 1.5, severity: 'normal' })).toMatchObject({
        ...{ letter: 'L', usedLetter: 'L', sample: 200, accept: 7, reject: 8, wholeLot: false },
        mark: { mark: 'seen', caution: null },
      });
  });

  it('looks at the whole lot where the sample would reach it', () => {
    const plan = lotPlan({ lot: 8, level: 'II', limit: 1.5, severity: 'normal' });
    expect(plan).toMatchObject({ letter: 'A', usedLetter: 'D', sample: 8, accept: 0, wholeLot: true });
  });

  it('marks what was computed, and what was seen once only', () => {
    const of = (letter: string, severity: (typeof inspectionSeverities)[number]) =>
      lotPlan({ ...lotFor(letter), limit: 2.5, severity }).mark;
    expect(of('K', 'normal').mark).toBe('computed');
    expect(of('H', 'tightened').caution).toBeNull();
    expect(of('M', 'tightened').caution).toMatch(/MIL-STD-105E/);
    expect(of('H', 'reduced').caution).toMatch(/one source only/);
  });

  it('has a letter for every lot, later for larger lots', () => {
    expect([2, 8, 9, 90, 91, 150, 151, 500_001].map((lot) => codeLetter(lot, 'II'))).toEqual([
      ...['A', 'A', 'B', 'E', 'F', 'F', 'G', 'Q'],
    ]);
    inspectionLevels.forEach((_, at) => {
      const along = lotRows.map(([, letters]) => codeLetters.indexOf(letters[at]!));
      expect(along).toEqual(along.toSorted((a, b) => a - b));
      expect(Math.min(...along)).toBeGreaterThanOrEqual(0);
    });
    expect(() => codeLetter(1, 'II')).toThrow(RangeError);
  });

  it('follows no arrow out of the table', () => {
    for (const letter of codeLetters)
      for (const severity of inspectionSeverities)
        for (const limit of qualityLimits) {
          if (letter === 'R' && lotFor('R').level !== 'III') throw new Error('R is at level III');
          const plan = lotPlan({ ...lotFor(letter), limit, severity });
          expect(plan.reject).toBeGreaterThan(plan.accept);
        }
  });
});

const lot = (accepted: boolean, more: Partial<LotOutcome> = {}): LotOutcome => ({
  ...{ accepted, acceptanceNumber: 0 },
  ...more,
});
const after = (lots: LotOutcome[], from: SwitchingState = switchingStart) => lots.reduce(nextSeverity, from);
const yes = lot(true);
const no = lot(false);

describe('switching', () => {
  it('tightens after two of five not accepted, and not after two of six', () => {
    expect(after([no, yes, yes, yes, no]).severity).toBe('tightened');
    expect(after([no, yes, yes, yes, yes, no]).severity).toBe('normal');
    expect(after([no, no])).toMatchObject({ severity: 'tightened', recent: [] });
  });

  it('comes back after five accepted in a row, and stops after five not accepted', () => {
    const tight = after([no, no]);
    expect(after([yes, yes, yes, yes], tight).severity).toBe('tightened');
    expect(after([yes, yes, yes, no, yes, yes, yes, yes], tight).severity).toBe('tightened');
    expect(after([yes, yes, yes, yes, yes], tight).severity).toBe('normal');
    const stopped = after([no, yes, no, yes, no, yes, no, yes, no], tight);
    expect(stopped.severity).toBe('stopped');
    expect(after([yes, yes], stopped)).toEqual(stopped);
  });

  it('reduces at a score of 30: 15 lots of two points, ten of three', () => {
    expect(after(new Array(14).fill(yes)).severity).toBe('normal');
    expect(after(new Array(15).fill(yes)).severity).toBe('reduced');
    const three = lot(true, { acceptanceNumber: 3, acceptedOneStepTighter: true });
    expect(after(new Array(10).fill(three)).severity).toBe('reduced');
    const plain = lot(true, { acceptanceNumber: 3 });
    expect(after([...new Array(9).fill(three), plain])).toMatchObject({ severity: 'normal', score: 0 });
    expect(after([yes, yes, no]).score).toBe(0);
  });

  it('goes back from reduced at the first doubt', () => {
    const reduced = after(new Array(15).fill(yes));
    expect(after([yes, yes], reduced).severity).toBe('reduced');
    expect(after([no], reduced).severity).toBe('normal');
    expect(after([lot(true, { between: true })], reduced).why).toMatch(/between/);
  });

  it('has a mark on every rule', () => {
    for (const rule of Object.values(switchingRules)) expect(rule.mark).toBe('from memory');
  });
});
