import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { faults, plan } from '@countercheck/planning';
import {
  type Instance,
  instanceNames,
  instanceProblem,
  instanceSizes,
} from '../../packages/planning/src/test/instances.ts';
import { companyWeek } from '../../packages/planning/src/test/week.ts';

// Planning beside the best distances that anybody has published, distance first, and a week of a big company.
// Every plan is looked at by the independent checker. Usage: npm run bench routing [seconds for each, usually 1.9]

const seconds = Number(process.argv[2] ?? 1.9);
const folder = join(import.meta.dirname, '../../packages/planning/instances');
const allowed = { 25: 3, 50: 3, 100: 5 } as Record<number, number>;
const row = (cells: readonly (string | number)[]) =>
  console.log(cells.map((cell, i) => String(cell).padStart([8, 5, 9, 9, 8, 9, 8, 9, 11][i]!)).join(''));

// The first plan of a process also pays for making the code fast.
plan(instanceProblem(read('r101'), 25), { iterations: 3000 });
row(['instance', 'size', 'best', 'ours', 'over', 'vehicles', 'seconds', 'rounds', '']);
for (const name of instanceNames) {
  const instance = read(name);
  for (const size of instanceSizes) {
    const problem = instanceProblem(instance, size);
    const start = performance.now();
    const found = plan(problem, { iterations: 10_000_000, milliseconds: seconds * 1000 });
    const took = (performance.now() - start) / 1000;
    const wrong = [...faults(problem, found), ...found.unplaced.map(({ visit }) => `${visit} is left out`)];
    const best = instance.bestKnown[size]!.distance;
    const over = (found.driveDistance / 10 / best - 1) * 100;
    const missed =
      wrong.length > 0 ? wrong[0]! : over > allowed[size]! ? 'MISSED' : took > 2 ? 'TOO SLOW' : '';
    if (missed !== '') process.exitCode = 1;
    row([
      ...[
        instance.name,
        size,
        best.toFixed(1),
        (found.driveDistance / 10).toFixed(1),
        `${over.toFixed(2)} %`,
      ],
      ...[found.days.length, took.toFixed(2), found.iterations, missed],
    ]);
  }
}

for (const [raters, visits] of [
  [5, 40],
  [40, 400],
] as const) {
  const problem = companyWeek({ raters, visits, seed: 7 });
  const start = performance.now();
  const found = plan(problem, { iterations: 10_000_000, milliseconds: raters === 40 ? 9_000 : 2_000 });
  const took = (performance.now() - start) / 1000;
  const wrong = faults(problem, found);
  if (wrong.length > 0 || took > 10) process.exitCode = 1;
  const { driveMinutes, unplaced, cost, iterations } = found;
  console.log(
    `a week of ${raters} raters and ${visits} visits: ${took.toFixed(1)} s, ${iterations} rounds, ${unplaced.length} left out, ${(driveMinutes / 60).toFixed(0)} h on the road, cost ${cost.toFixed(0)}, ${wrong.length === 0 ? 'feasible' : wrong[0]}`,
  );
}

function read(name: string): Instance {
  return JSON.parse(readFileSync(join(folder, `${name}.json`), 'utf8')) as Instance;
}
