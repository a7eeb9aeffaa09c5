import { readFileSync } from 'node:fs';
import { expect, test, vi } from 'vitest';
import { faults, plan } from '../index.ts';
import { type Instance, instanceNames, instanceProblem } from './instances.ts';

// A machine that is busy with other things searches as many rounds, only slower.
vi.setConfig({ testTimeout: 60_000 });

const read = (name: string) =>
  JSON.parse(readFileSync(new URL(`../../instances/${name}.json`, import.meta.url), 'utf8')) as Instance;

// Rounds instead of seconds, so that a slow machine finds the same; `npm run bench routing` has the whole table.
test.each(instanceNames)('%s comes within three hundredths of the best known with 25 customers', (name) => {
  const instance = read(name);
  const problem = instanceProblem(instance, 25);
  const found = plan(problem, { iterations: 2_500 });
  expect(faults(problem, found)).toEqual([]);
  expect(found.unplaced).toEqual([]);
  const best = instance.bestKnown['25']!.distance;
  expect(found.driveDistance / 10).toBeLessThanOrEqual(1.03 * best);
  // A distance below the best known would sooner be a mistake than a discovery.
  expect(found.driveDistance / 10).toBeGreaterThanOrEqual(best - 0.05);
});

test.each(['c101', 'r105', 'rc205'])('%s with 50 and 100 customers', (name) => {
  const instance = read(name);
  for (const [size, over, iterations] of [
    [50, 1.03, 3_000],
    [100, 1.05, 4_000],
  ] as const) {
    const problem = instanceProblem(instance, size);
    const found = plan(problem, { iterations });
    expect([...faults(problem, found), ...found.unplaced]).toEqual([]);
    expect(found.driveDistance / 10).toBeLessThanOrEqual(over * instance.bestKnown[size]!.distance);
  }
});
