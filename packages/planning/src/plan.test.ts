import * as fc from 'fast-check';
import { expect, test, vi } from 'vitest';
import { faults, plan } from './index.ts';
import { anyProblem } from './test/any-problem.ts';
import { companyWeek } from './test/week.ts';

// A machine that is busy with other things searches as many rounds, only slower.
vi.setConfig({ testTimeout: 60_000 });

test('whatever is asked, the plan holds, and what is left out has its reason', () => {
  fc.assert(
    fc.property(anyProblem, fc.integer({ min: 1, max: 1e6 }), (problem, seed) => {
      const found = plan(problem, { iterations: 150, seed });
      expect(faults(problem, found)).toEqual([]);
    }),
    { numRuns: 400 },
  );
});

test('a week of a company holds, and the same seed plans it the same', () => {
  const problem = companyWeek({ raters: 8, visits: 70, seed: 3 });
  const one = plan(problem, { iterations: 400, seed: 5 });
  expect(faults(problem, one)).toEqual([]);
  expect(one.unplaced).toEqual([]);
  expect(plan(problem, { iterations: 400, seed: 5 })).toEqual(one);
  expect(plan(problem, { iterations: 400, seed: 6 }).days).not.toEqual(one.days);
});

test('searching longer costs less, and can be stopped', () => {
  const problem = companyWeek({ raters: 5, visits: 40, seed: 2 });
  const short = plan(problem, { iterations: 1 });
  const long = plan(problem, { iterations: 2_000 });
  expect(long.cost).toBeLessThan(short.cost);
  const heard: number[] = [];
  const stopped = plan(problem, {
    iterations: 1e9,
    onProgress: ({ iterations }) => (heard.push(iterations), iterations < 1000),
  });
  expect(stopped.iterations).toBeLessThan(1_200);
  expect(heard[0]).toBe(0);
  expect(faults(problem, stopped)).toEqual([]);
});
