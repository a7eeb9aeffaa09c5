import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { agreementOf, checkOf, cleanInARow, figureDifferences, limitsOfAgreement } from './index.ts';
import { inForce, loadChecklists, loadTolerances } from './load.ts';

const read = (folder: string) => {
  const place = join(import.meta.dirname, '..', folder);
  return readdirSync(place).map((name) => ({
    path: `${folder}/${name}`,
    text: readFileSync(join(place, name), 'utf8'),
  }));
};
const checklists = loadChecklists(read('checklists/file-review'));
const tolerances = loadTolerances(read('tolerances/re-test'));
const inUse = tolerances.at(-1)!;

describe('versions as data', () => {
  it('load, and every figure says where it comes from', () => {
    expect(checklists.map(({ version }) => version)).toContain('2026.1');
    const [list] = checklists;
    expect(list!.reading.length).toBeGreaterThan(2);
    expect(checkOf(list!, 'seal')).toMatchObject({ severity: 'major' });
    expect(checkOf(list!, 'no-such-check')).toBeUndefined();
    for (const { source } of inUse.quantities) expect(source.citation.length).toBeGreaterThan(10);
  });

  it('are refused with file, line and field', () => {
    const text = read('tolerances/re-test')[0]!.text;
    const broken = text.replace('share: 0.1', 'share: ten');
    expect(() => loadTolerances([{ path: 're-test/2026.1.yaml', text: broken }])).toThrow(
      /re-test\/2026\.1\.yaml:11: quantities\.0\.share/,
    );
    expect(() => loadTolerances([{ path: 're-test/2026.9.yaml', text }])).toThrow(/says version 2026\.1/);
    expect(() => loadTolerances([{ path: 'x/2026.1.yaml', text: 'a: [' }])).toThrow(/x\/2026\.1\.yaml:1/);
    const list = read('checklists/file-review')[0]!;
    expect(() =>
      loadChecklists([{ ...list, text: list.text.replace('key: plausible', 'key: photo') }]),
    ).toThrow(/"photo" stands twice/);
    expect(() =>
      loadChecklists([{ ...list, text: list.text.replace('- key: seal', '- key: stamp') }]),
    ).toThrow(/automatic/);
  });

  it('are in force from their day on', () => {
    const versions = [{ effective: '2026-01-01' }, { effective: '2026-07-01' }];
    expect(inForce(versions, '2026-06-30')).toBe(versions[0]);
    expect(inForce(versions, '2026-07-01')).toBe(versions[1]);
    expect(inForce(versions, '2020-01-01')).toBe(versions[0]);
    expect(() => inForce([], '2026-01-01')).toThrow();
  });
});

describe('agreement of two measurements', () => {
  const of = (first: number, second: number, u1: number | null = null, u2: number | null = null) =>
    agreementOf('airflow', { value: first, expanded: u1 }, { value: second, expanded: u2 }, inUse)!;

  it('allows the larger of a tenth and 5 cfm, and both uncertainties', () => {
    expect(of(20, 25)).toMatchObject({ difference: 5, tolerance: 5, allowed: 5, agrees: true });
    expect(of(20, 25.1).agrees).toBe(false);
    expect(of(100, 110)).toMatchObject({ tolerance: 10, agrees: true });
    // √(3² + 4²) = 5, on top of the tolerance of 10
    expect(of(100, 115, 3, 4)).toMatchObject({ allowed: 15, agrees: true });
    expect(of(100, 84.9, 3, 4).agrees).toBe(false);
  });

  it('does not judge a quantity without a tolerance, or no number', () => {
    const results = [
      { value: 1, expanded: null },
      { value: 2, expanded: null },
    ] as const;
    expect(agreementOf('count', ...results, inUse)).toBeNull();
    expect(agreementOf('airflow', { value: NaN, expanded: null }, results[1], inUse)).toBeNull();
  });

  it('never grows stricter with more uncertainty, and its size does not hang on the sign', () => {
    const value = fc.double({ min: -500, max: 500, noNaN: true });
    const doubt = fc.double({ min: 0, max: 50, noNaN: true });
    fc.assert(
      fc.property(value, value, doubt, doubt, (first, second, one, more) => {
        const narrow = of(first, second, one, null);
        const wide = of(first, second, one, more);
        expect(wide.allowed).toBeGreaterThanOrEqual(narrow.allowed);
        if (narrow.agrees) expect(wide.agrees).toBe(true);
        expect(of(-first, -second, one, more).agrees).toBe(wide.agrees);
      }),
    );
  });
});

describe('limits of agreement', () => {
  it('are the mean and 1.96 standard deviations on each side', () => {
    expect(limitsOfAgreement([])).toBeNull();
    expect(limitsOfAgreement([3])).toEqual({ count: 1, mean: 3, deviation: null, low: null, high: null });
    // 2, 4, 4, 4, 5, 5, 7, 9: mean 5, s² = 32 / 7
    const found = limitsOfAgreement([2, 4, 4, 4, 5, 5, 7, 9])!;
    expect(found.mean).toBe(5);
    expect(found.deviation).toBeCloseTo(Math.sqrt(32 / 7), 12);
    expect(found.high).toBeCloseTo(5 + 1.96 * Math.sqrt(32 / 7), 12);
    expect(found.low! + found.high!).toBeCloseTo(10, 12);
  });
});

describe('clean files in a row', () => {
  const at = (day: number, outcome: 'clean' | 'findings' = 'clean') => ({
    doneAt: new Date(Date.UTC(2026, 0, day)),
    outcome,
  });
  const since = new Date(Date.UTC(2026, 0, 10));

  it('counts what was finished since, and begins anew at a finding', () => {
    expect(cleanInARow([], since)).toBe(0);
    expect(cleanInARow([at(9), at(10), at(12)], since)).toBe(2);
    expect(cleanInARow([at(11), at(12, 'findings'), at(13), at(14)], since)).toBe(2);
    expect(cleanInARow([at(14), at(11), at(15, 'findings')], since)).toBe(0);
    expect(cleanInARow([at(9, 'findings'), at(11)], since)).toBe(1);
    // Two of one instant: nobody knows which was first, and the finding counts.
    expect(cleanInARow([at(12), at(12, 'findings'), at(13)], since)).toBe(1);
  });
});

describe('figures of a released file computed again', () => {
  const reading = (readingId: string, value: number) => ({
    readingId,
    values: [{ key: 'flow', label: 'Flow', value, unit: 'cfm' }],
  });

  it('differ by value, and where one side has none', () => {
    expect(figureDifferences([reading('a', 0.1 + 0.2)], [reading('a', 0.3)])).toEqual([]);
    expect(figureDifferences([reading('a', 50)], [reading('a', 50.1), reading('later', 1)])).toEqual([
      { readingId: 'a', label: 'Flow', unit: 'cfm', released: 50, again: 50.1 },
    ]);
    expect(figureDifferences([reading('a', 50)], [])).toMatchObject([{ released: 50, again: null }]);
    expect(figureDifferences([{ readingId: 'a', values: [] }], [reading('a', 50)])).toMatchObject([
      { released: null, again: 50 },
    ]);
  });
});
