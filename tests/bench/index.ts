import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';

/**
 * The benchmarks, each in a process of its own so that none warms or burdens another.
 * Usage: npm run bench [name] [its arguments]; without a name all of them run with their usual sizes.
 */
const benchmarks: Record<string, string> = {
  engines: 'judging thirty items, beside other rule engines',
  fits: 'multi-point regressions with their intervals',
  replay: 'another rule set over very many past houses',
  events: 'what the chain of the event log costs its writers',
  routing: 'planning, beside the best distances known of published instances',
  desk: 'the desk of the quality manager with very many houses, beside its SQL',
  draws: 'drawing a tenth of a million files, by each method',
  field: "a rater's day sent when the network is back",
  endpoints: 'the busiest endpoints with very many houses, beside their SQL',
};

const [name, ...given] = process.argv.slice(2);
if (name !== undefined && !(name in benchmarks)) {
  console.error(`There is no benchmark "${name}". There are: ${Object.keys(benchmarks).join(', ')}.`);
  process.exit(2);
}
for (const [each, what] of Object.entries(benchmarks)) {
  const file = join(import.meta.dirname, `${each}.ts`);
  if ((name !== undefined && name !== each) || !existsSync(file)) continue;
  console.log(`\n${each}: ${what}`);
  const { status } = spawnSync(process.execPath, ['--import', 'tsx', file, ...given], { stdio: 'inherit' });
  if (status !== 0) process.exitCode = 1;
}
