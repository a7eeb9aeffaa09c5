import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ductTester } from '../testing/instruments.ts';
import { rangeFlow } from './range-flow.ts';
import { rangesForFlow, rangeSpans } from './range-spans.ts';

const table = [
  { pressure: 20, flow: 3 },
  { pressure: 200, flow: 9 },
];
const device = {
  ...ductTester,
  ranges: [
    { range: 'open', c: 40, n: 0.5, minPa: 0, maxPa: 100 },
    ...ductTester.ranges,
    { range: 'plate', c: 1, n: 1, minPa: 10, maxPa: 150, table },
    { range: 'broken', c: 0, n: 0.5, minPa: 10, maxPa: 100 },
    { range: 'torn', c: 1, n: 0.5, minPa: 10, maxPa: 100, table: table.slice(1) },
  ],
};

describe('rangeSpans', () => {
  it('gives each range’s window in pressure and flow, the smallest flow first', () => {
    expect(rangeSpans(device)).toEqual([
      { range: 'open', lowPa: 0, highPa: 100, lowFlow: 0, highFlow: 400 },
      {
        range: 'plate',
        lowPa: 20,
        highPa: 150,
        lowFlow: expect.closeTo(3, 9),
        highFlow: expect.closeTo(3 * 7.5 ** (Math.log(3) / Math.log(10)), 9),
      },
      { range: 'small', lowPa: 10, highPa: 400, lowFlow: expect.closeTo(15.811, 3), highFlow: 100 },
      { range: 'large', lowPa: 10, highPa: 400, lowFlow: expect.closeTo(63.246, 3), highFlow: 400 },
    ]);
    expect(rangeSpans({ ...device, ranges: [] })).toEqual([]);
  });
});

describe('rangesForFlow', () => {
  it.each([
    [80, ['small', 'open', 'large']],
    [200, ['open', 'large']],
    [5, ['plate', 'open']],
    [100, ['small', 'open', 'large']],
    [401, []],
    [NaN, []],
  ])('for %s cfm offers %o', (flow, ranges) => {
    expect(rangesForFlow(device, flow)).toEqual(ranges);
  });

  it('offers the range on which a reading was taken', () => {
    fc.assert(
      fc.property(fc.double({ min: 10, max: 400, noNaN: true }), (pressure) => {
        const found = rangeFlow(ductTester, 'large', pressure);
        expect(rangesForFlow(ductTester, found.ok ? found.value.flow : NaN)).toContain('large');
      }),
    );
  });
});
