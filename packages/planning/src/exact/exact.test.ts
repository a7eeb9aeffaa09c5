import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { faults, plan } from '../index.ts';
import { anyProblem } from '../test/any-problem.ts';
import { type Instance, instanceProblem } from '../test/instances.ts';
import { planExactly } from './index.ts';

const limits = { mostChains: 30_000, seconds: 20 };

test(
  'no search beats it, and the search comes to the same on small problems',
  { timeout: 60_000 },
  async () => {
    let same = 0;
    let compared = 0;
    await fc.assert(
      fc.asyncProperty(anyProblem, async (problem) => {
        const exact = await planExactly(problem, limits);
        if (!exact) return;
        expect(exact.proved).toBe(true);
        expect(faults(problem, exact.plan)).toEqual([]);
        const found = plan(problem, { iterations: 300 });
        expect(found.cost).toBeGreaterThan(exact.plan.cost - 1e-4);
        compared++;
        if (found.cost < exact.plan.cost + 1e-4) same++;
      }),
      { numRuns: 40, seed: 11 },
    );
    expect(compared).toBeGreaterThan(25);
    expect(same / compared).toBeGreaterThan(0.97);
  },
);

test(
  'proves the best known distances of two published instances, and bounds them from below',
  { timeout: 60_000 },
  async () => {
    for (const name of ['r101', 'r105']) {
      const url = new URL(`../../instances/${name}.json`, import.meta.url);
      const instance = JSON.parse(readFileSync(url, 'utf8')) as Instance;
      const problem = instanceProblem(instance, 25);
      const exact = await planExactly(problem, { ...limits, mostChains: 1_000_000 });
      expect(exact).toMatchObject({ proved: true });
      expect(exact!.plan.driveDistance / 10).toBe(instance.bestKnown['25']!.distance);
      expect(exact!.bound).toBeCloseTo(10 * instance.bestKnown['25']!.distance, 6);
    }
  },
);

test('gives up where there is too much to look at', async () => {
  const url = new URL(`../../instances/c201.json`, import.meta.url);
  const instance = JSON.parse(readFileSync(url, 'utf8')) as Instance;
  expect(await planExactly(instanceProblem(instance, 50), limits)).toBeNull();
});
