import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tableFlow, type TablePoint } from './table-flow.ts';
import { tableDoubts, tableProblem } from './table-problem.ts';

const rows = (...pairs: [number, number][]): TablePoint[] =>
  pairs.map(([pressure, flow]) => ({ pressure, flow }));
const good = rows([10, 16.2], [25, 25.4], [60, 39.8], [150, 62]);

describe('tableProblem', () => {
  it('takes a table in any order, with a window inside it', () => {
    expect(tableProblem(good)).toBeNull();
    expect(tableProblem([...good].reverse(), { minPa: 10, maxPa: 150 })).toBeNull();
    expect(tableProblem(good.slice(0, 3), { minPa: 20, maxPa: 50 })).toBeNull();
  });

  it.each([
    [rows([10, 16.2], [25, 25.4]), 'too-few-points', 'has 2 of the 3 rows'],
    [[], 'too-few-points', 'has 0'],
    [rows([10, 16.2], [25, NaN], [60, 39.8]), 'not-a-number', 'Row 2 needs two numbers'],
    [rows([10, 16.2], [25, 25.4], [Infinity, 39.8]), 'not-a-number', 'Row 3'],
    [rows([0, 0], [25, 25.4], [60, 39.8]), 'not-above-zero', 'Row 1 has 0 cfm at 0 Pa'],
    [rows([10, 16.2], [25, 0], [60, 39.8]), 'not-above-zero', 'Row 2 has 0 cfm at 25 Pa'],
    [rows([10, 16.2], [-25, 25.4], [60, 39.8]), 'not-above-zero', 'leave out a row for zero'],
    [rows([60, 39.8], [25, 25.4], [60, 40]), 'repeated-point', 'Rows 1 and 3 both have 60 Pa'],
    [
      rows([60, 39.8], [10, 16.2], [25, 254]),
      'not-growing',
      'from 254 cfm at 25 Pa (row 3) to 39.8 cfm at 60 Pa (row 1)',
    ],
    [rows([10, 16], [25, 16], [60, 39.8]), 'not-growing', 'Check both rows'],
  ])('refuses %j: %s', (table, code, words) => {
    expect(tableProblem(table)).toMatchObject({
      path: 'table',
      code,
      message: expect.stringContaining(words),
    });
  });

  it.each([
    [9.9, 150],
    [10, 150.1],
  ])('refuses a window from %s to %s Pa: nothing is extrapolated', (minPa, maxPa) => {
    expect(tableProblem(good, { minPa, maxPa })).toMatchObject({
      code: 'outside-table',
      message: expect.stringContaining(`from ${minPa} to ${maxPa} Pa, but the table holds from 10 to 150 Pa`),
    });
  });

  it('lets nothing through that cannot be read over its whole width', () => {
    const number = fc.double({ min: -5, max: 500, noNaN: true });
    const any = fc.array(fc.record({ pressure: number, flow: number }), { minLength: 3, maxLength: 6 });
    fc.assert(
      fc.property(any, fc.double({ min: 0, max: 1, noNaN: true }), (table, share) => {
        if (tableProblem(table) !== null) return;
        const pressures = table.map(({ pressure }) => pressure);
        const [low, high] = [Math.min(...pressures), Math.max(...pressures)];
        const at = Math.min(high, Math.max(low, low + share * (high - low)));
        expect(tableFlow(table, at).ok).toBe(true);
      }),
    );
  });
});

describe('tableDoubts', () => {
  const law = (n: number) => [10, 40, 160].map((pressure) => ({ pressure, flow: 5 * pressure ** n }));

  it('is silent where a device behaves, the limits included', () => {
    expect(tableDoubts(good)).toEqual([]);
    expect(tableDoubts(law(0.3))).toEqual([]);
    expect(tableDoubts(law(1.2))).toEqual([]);
  });

  it('points at both sides of a mistyped row', () => {
    // 93.8 in the place of 39.8: ln(93.8/25.4)/ln(60/25) = 1.49 before it; 100/93.8 over 150/60 = 0.07 after it
    const slip = rows([150, 100], [25, 25.4], [60, 93.8], [10, 16.2]);
    expect(tableDoubts(slip)).toMatchObject([
      {
        rows: [2, 3],
        exponent: expect.closeTo(1.4923, 3),
        words: expect.stringContaining('power 1.49, faster'),
      },
      { rows: [3, 1], exponent: expect.closeTo(0.0699, 3), words: expect.stringContaining('more slowly') },
    ]);
    expect(tableDoubts(law(0.29))).toHaveLength(2);
    expect(tableDoubts(law(1.21))).toHaveLength(2);
  });
});
