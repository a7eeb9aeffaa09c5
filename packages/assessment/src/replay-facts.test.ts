import { compileDecisions, decide, type Facts } from '@countercheck/rules';
import { describe, expect, it } from 'vitest';
import { buildFacts } from './facts/index.ts';
import { replayFacts } from './replay-facts.ts';
import { commonPractice, plainFile, reading } from './test/house.ts';
import type { FileReading, HouseFile } from './types.ts';

const compiled = compileDecisions(commonPractice);
const statuses = (facts: Facts) => decide(compiled, facts).map(({ status }) => status);
const file = (...readings: FileReading[]): HouseFile => ({ ...plainFile, readings });
const supply = (pressure: number, takenOn: string, more: Partial<FileReading> = {}) =>
  reading('supply-static', 'down', 'manometer', { values: { pressure } }, { takenOn, ...more });
const shown = (facts: Facts | null) => facts?.measured['supply-static']?.down?.values.staticPressure?.value;

describe('the facts of a replay', () => {
  it('decide as the whole facts do, and come back whole from their text', () => {
    const given = file(supply(0.092, '2026-06-01'));
    const { now, first } = replayFacts(given);
    expect(statuses(now)).toEqual(statuses(buildFacts(given)));
    expect(first).toBeNull();
    expect(now.measured['supply-static']?.down).toMatchObject({ steps: [], remarks: [] });
    expect(JSON.parse(JSON.stringify(now))).toEqual(now);
  });

  it('tell what was read first from what stands now, in any order', () => {
    const [old, fresh] = [supply(0.2, '2026-05-01'), supply(0.09, '2026-06-01')];
    for (const given of [file(old, fresh), file(fresh, old)]) {
      const { now, first } = replayFacts(given);
      expect([shown(now), shown(first)]).toEqual([0.09, 0.2]);
    }
  });

  it('take in a reading that was replaced on a later visit', () => {
    const { now, first } = replayFacts(file(supply(0.09, '2026-06-01')), [supply(0.2, '2026-06-01')]);
    expect([shown(now), shown(first)]).toEqual([0.09, 0.2]);
  });

  it('take the first that counts', () => {
    const early = supply(0.3, '2025-06-01');
    const { first } = replayFacts(file(early, supply(0.2, '2026-05-01'), supply(0.09, '2026-06-01')));
    expect(shown(first)).toBe(0.2);
  });
});
