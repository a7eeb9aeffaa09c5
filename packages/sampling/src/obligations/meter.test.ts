import { expect, it } from 'vitest';
import { obligationMeter, owed, shareInForce } from '../index.ts';

const year = { from: '2026-01-01', to: '2026-12-31' };

it('owes the share rounded up, one at the least, nothing without files', () => {
  expect(owed(0, 1000, 1)).toBe(0);
  expect(owed(1, 1000, 1)).toBe(1);
  expect(owed(70, 1000, 1)).toBe(7);
  expect(owed(71, 1000, 1)).toBe(8);
  expect(owed(30, 100, 1)).toBe(1);
  expect(owed(2, 100, 3)).toBe(2);
});

it('says what the rest of the year needs at the pace so far', () => {
  // 73 of 365 days: a fifth of the year.
  const meter = obligationMeter({
    ...{ ...year, today: '2026-03-14', files: 50, done: 3, share: 1000, minimum: 1 },
  });
  expect(meter).toMatchObject({
    ...{ due: 5, done: 3, behind: 2, expectedFiles: 250, dueByEnd: 25, stillToDo: 22, shortAtEnd: 10 },
  });
  expect(meter.neededPerMonth).toBeCloseTo((22 / 292) * 30.4375, 9);
  expect(meter.donePerMonth).toBeCloseTo((3 / 73) * 30.4375, 9);
});

it('comes to rest at the end of the period, and before it begins', () => {
  const after = obligationMeter({
    ...{ ...year, today: '2027-02-01', files: 40, done: 6, share: 1000, minimum: 1 },
  });
  expect(after).toMatchObject({ due: 4, behind: 0, stillToDo: 0, neededPerMonth: null, shortAtEnd: 0 });
  const first = obligationMeter({
    ...{ ...year, today: '2025-12-01', files: 1, done: 0, share: 1000, minimum: 1 },
  });
  expect(first).toMatchObject({ due: 1, expectedFiles: 365, dueByEnd: 37 });
  expect(() =>
    obligationMeter({
      ...year,
      to: '2025-01-01',
      today: '2026-01-01',
      files: 1,
      done: 0,
      share: 1,
      minimum: 1,
    }),
  ).toThrow(RangeError);
});

it('takes the raised share where there is one', () => {
  expect(shareInForce(1000, [])).toBe(1000);
  expect(shareInForce(1000, [null, 3000, 500])).toBe(3000);
});
