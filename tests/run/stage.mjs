import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { runNode } from './command.mjs';

/** @typedef {{ passed: number, failed: number, note: string }} Outcome */

/**
 * A check counts as one, however many tools it takes.
 * @param {import('./stages.mjs').Stage} stage
 * @param {string} cwd
 * @returns {Promise<Outcome>}
 */
async function check(stage, cwd) {
  for (const command of stage.commands ?? []) {
    const { code, output } = await runNode(command, { cwd, minutes: stage.minutes, show: false });
    if (code === 0) continue;
    console.log(output);
    return { passed: 0, failed: 1, note: 'failed' };
  }
  return { passed: 1, failed: 0, note: 'clean' };
}

/**
 * Every test counts as one. A file that cannot be loaded, a stage without a single test and an error outside
 * any test are failures too: silence must never look like success.
 * @param {import('./stages.mjs').Stage} stage
 * @param {string} cwd
 * @returns {Promise<Outcome>}
 */
async function tests(stage, cwd) {
  const results = join(cwd, 'tests', 'results');
  const file = join(results, `${stage.name}.json`);
  mkdirSync(results, { recursive: true });
  rmSync(file, { force: true });
  const args = ['node_modules/vitest/vitest.mjs', 'run', '--project', stage.project ?? stage.name];
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
  const { code, output } = await runNode([...args, ...reporters], {
    cwd,
    minutes: stage.minutes,
    show: true,
  });
  if (!existsSync(file)) {
    return { passed: 0, failed: 1, note: output || 'ended without a report' };
  }
  const report = JSON.parse(readFileSync(file, 'utf8'));
  const unloaded = report.testResults.filter(
    (/** @type {{ status: string, assertionResults: unknown[] }} */ one) =>
      one.status === 'failed' && one.assertionResults.length === 0,
  ).length;
  const passed = report.numPassedTests;
  const skipped = report.numPendingTests + report.numTodoTests;
  const told = report.numFailedTests + unloaded;
  const failed = told === 0 && (passed === 0 || code !== 0) ? 1 : told;
  return {
    passed,
    failed,
    note: `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`,
  };
}

/**
 * @param {import('./stages.mjs').Stage} stage
 * @param {string} cwd
 */
export const runStage = (stage, cwd) => (stage.project ? tests(stage, cwd) : check(stage, cwd));
