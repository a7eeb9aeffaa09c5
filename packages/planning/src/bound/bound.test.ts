import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { expect, test, vi } from 'vitest';
import { planBetween, planExactly } from '../exact/index.ts';
import { faults, plan } from '../index.ts';
import { anyProblem } from '../test/any-problem.ts';
import { type Instance, instanceProblem } from '../test/instances.ts';
import { asked, rater, road, visit } from '../test/small.ts';
import { companyWeek } from '../test/week.ts';

// A machine that is busy with other things comes to the same, only later.
vi.setConfig({ testTimeout: 60_000 });

const exactly = { mostChains: 30_000, seconds: 20 };

test(
  'no plan costs less than the bound, and it comes near the cheapest, on small problems of all kinds',
  { timeout: 60_000 },
  async () => {
    let [compared, met] = [0, 0];
    await fc.assert(
      fc.asyncProperty(anyProblem, async (problem) => {
        const exact = await planExactly(problem, exactly);
        if (!exact) return;
        // Also beside a poor plan, which gives it poor prices to begin with.
        const poor = plan(problem, { iterations: 1 });
        const found = await planBetween(problem, poor, { milliseconds: 2_000 });
        expect(found.bound).toBeLessThanOrEqual(exact.plan.cost + 1e-4);
        expect(found.plan.cost).toBeGreaterThan(exact.plan.cost - 1e-4);
        expect(found.plan.cost).toBeLessThanOrEqual(poor.cost);
        expect(faults(problem, found.plan)).toEqual([]);
        if (found.proved) expect(found.plan.cost).toBeCloseTo(exact.plan.cost, 3);
        compared++;
        if (found.bound > exact.plan.cost * 0.99 - 1e-3) met++;
      }),
      { numRuns: 60, seed: 5 },
    );
    expect(compared).toBeGreaterThan(40);
    expect(met / compared).toBeGreaterThan(0.9);
  },
);

test('holds without any time, from the ways that nobody can avoid', async () => {
  const problem = companyWeek({ raters: 3, visits: 12, seed: 3 });
  const found = plan(problem, { iterations: 200 });
  const hurried = await planBetween(problem, found, { milliseconds: 0 });
  const leisurely = await planBetween(problem, found, { milliseconds: 10_000 });
  expect(hurried).toMatchObject({ rounds: 0, plan: found });
  expect(hurried.bound).toBeGreaterThan(0);
  expect(leisurely.rounds).toBeGreaterThan(0);
  expect(leisurely.bound).toBeGreaterThan(hurried.bound);
  expect(leisurely.bound).toBeLessThanOrEqual(leisurely.plan.cost);
});

test('is the cost itself where there is one way only, with what is left out and beyond the share', async () => {
  const hours = { from: 480, to: 1020, startPlace: 0, endPlace: 0, pause: null, room: null };
  const only = rater('one', { days: [{ day: 0, ...hours }] });
  const long = visit('long', 3, { minutes: 400 });
  const problem = asked([visit('near', 1), long, visit('other', 2, { minutes: 400 })], [only], {
    travel: road(10, 4),
  });
  const found = plan(problem, { iterations: 50 });
  const between = await planBetween(problem, found, { milliseconds: 5_000 });
  // Two of the three fit: one long visit is left out, and the nearer one is kept.
  expect(found.unplaced).toHaveLength(1);
  expect(between).toMatchObject({ proved: true, plan: { cost: 10_040 } });
  expect(between.bound).toBeCloseTo(10_040, 3);
});

test(
  'bounds a published instance too large to be looked at chain by chain',
  { timeout: 60_000 },
  async () => {
    const url = new URL('../../instances/r101.json', import.meta.url);
    const instance = JSON.parse(readFileSync(url, 'utf8')) as Instance;
    const best = 10 * instance.bestKnown['50']!.distance;
    const problem = instanceProblem(instance, 50);
    const found = await planBetween(problem, plan(problem, { iterations: 1_000 }), { milliseconds: 20_000 });
    expect(found.bound).toBeLessThanOrEqual(best + 1e-3);
    expect(found.bound).toBeGreaterThan(0.985 * best);
  },
);
