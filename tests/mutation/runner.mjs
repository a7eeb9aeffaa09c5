import { INSTRUMENTER_CONSTANTS } from '@stryker-mutator/api/core';
import { declareFactoryPlugin, PluginKind } from '@stryker-mutator/api/plugin';
import { DryRunStatus, MutantRunStatus, TestStatus } from '@stryker-mutator/api/test-runner';
import fc from 'fast-check';
import { openTests } from './loaded-tests.mjs';

/**
 * Runs the tests of a package in the process that has loaded them once, and switches mutants on and off beneath
 * them. Starting a test runner anew for each of more than ten thousand mutants would take a day; this takes the
 * time of the tests alone.
 *
 * What is computed once and kept could carry one mutant over to the next, so a test that fails is run again with
 * the mutant off, and a mutant that was never reached is tried again; either way everything is loaded anew first.
 *
 * @typedef {import('@stryker-mutator/api/test-runner').TestRunner} TestRunner
 * @typedef {import('./loaded-tests.mjs').LoadedTest} LoadedTest
 */

/** Only what a mutant breaks matters, not the smallest example of it; and the same mutant meets the same values. */
fc.configureGlobal({ endOnFailure: true, seed: 1 });

/**
 * Longer tests, in ms of the processor, are not run against mutants: simulations and very many invented inputs.
 * A mutant that only they would notice counts as not noticed.
 */
const longest = 300;

const here = /** @type {Record<string, any>} */ (/** @type {unknown} */ (globalThis));

/** @implements {TestRunner} */
class InProcessRunner {
  /** @type {ReturnType<typeof openTests> | undefined} */
  #opened;
  /** Where the mutated code looks for which mutant is on. */
  #switches = (here[INSTRUMENTER_CONSTANTS.NAMESPACE] ??= {});
  /** @type {Map<string, number>} what each test took when it last passed, in ms of the processor */
  #took = new Map();

  capabilities() {
    return { reloadEnvironment: true };
  }

  #tests() {
    return (this.#opened ??= openTests());
  }

  /** @param {LoadedTest} test @returns {Promise<string | undefined>} why it failed */
  async #failureOf(test) {
    const before = process.cpuUsage();
    try {
      await test.run();
      const { user, system } = process.cpuUsage(before);
      this.#took.set(test.id, (user + system) / 1000);
      return undefined;
    } catch (error) {
      return error instanceof Error ? error.message : String(error);
    }
  }

  /** @param {import('@stryker-mutator/api/test-runner').DryRunOptions} options */
  async dryRun(options) {
    const reaching = await (await this.#tests()).reaching(options.files ?? []);
    /** @type {import('@stryker-mutator/api/test-runner').TestResult[]} */
    const tests = [];
    this.#switches.mutantCoverage ??= { static: {}, perTest: {} };
    const { mutantCoverage } = this.#switches;
    for (const test of reaching) {
      this.#switches.currentTestId = test.id;
      const failureMessage = await this.#failureOf(test);
      const timeSpentMs = this.#took.get(test.id) ?? 0;
      if (timeSpentMs > longest) delete mutantCoverage.perTest[test.id];
      const name = test.id.slice(test.id.indexOf('#') + 1);
      const result = { id: test.id, name, fileName: test.file, timeSpentMs };
      tests.push(
        failureMessage === undefined
          ? { ...result, status: TestStatus.Success }
          : { ...result, status: TestStatus.Failed, failureMessage },
      );
    }
    this.#switches.currentTestId = undefined;
    return { status: /** @type {const} */ (DryRunStatus.Complete), tests, mutantCoverage };
  }

  /**
   * @param {string} mutant
   * @param {string[]} ids
   * @param {number | undefined} limit
   */
  async #firstFailure(mutant, ids, limit) {
    const opened = await this.#tests();
    const tests = [];
    for (const id of ids) tests.push(await opened.get(id));
    // Most mutants are noticed by a quick test; the slow ones need not run then.
    tests.sort((one, other) => (this.#took.get(one.id) ?? 0) - (this.#took.get(other.id) ?? 0));
    Object.assign(this.#switches, { activeMutant: mutant, hitCount: 0, hitLimit: limit });
    try {
      for (const [index, test] of tests.entries()) {
        const failureMessage = await this.#failureOf(test);
        const endless = limit !== undefined && this.#switches.hitCount > limit;
        if (failureMessage !== undefined || endless) {
          return { test, failureMessage: failureMessage ?? '', endless, ran: index + 1 };
        }
      }
      return undefined;
    } finally {
      this.#switches.activeMutant = undefined;
    }
  }

  /**
   * @param {import('@stryker-mutator/api/test-runner').MutantRunOptions} options
   * @returns {Promise<import('@stryker-mutator/api/test-runner').MutantRunResult>}
   */
  async mutantRun(options) {
    const { activeMutant, hitLimit, testFilter: ids } = options;
    if (ids === undefined) return this.#whileLoading(options);
    let failure = await this.#firstFailure(activeMutant.id, ids, hitLimit);
    const reached = this.#switches.hitCount > 0;
    const leftover = failure !== undefined && (await this.#failureOf(failure.test)) !== undefined;
    if (leftover || !reached) {
      (await this.#tests()).forget();
      failure = await this.#firstFailure(activeMutant.id, ids, hitLimit);
    }
    if (failure === undefined) return { status: MutantRunStatus.Survived, nrOfTests: ids.length };
    if (failure.endless) return { status: MutantRunStatus.Timeout, reason: failure.failureMessage };
    return {
      status: MutantRunStatus.Killed,
      killedBy: [failure.test.id],
      failureMessage: failure.failureMessage,
      nrOfTests: failure.ran,
    };
  }

  /**
   * A mutant of what runs while the code loads, a table for instance: everything is loaded with it on, tried with the
   * quick tests that import its file, and forgotten again.
   *
   * @param {import('@stryker-mutator/api/test-runner').MutantRunOptions} options
   * @returns {Promise<import('@stryker-mutator/api/test-runner').MutantRunResult>}
   */
  async #whileLoading({ activeMutant, hitLimit, sandboxFileName }) {
    const opened = await this.#tests();
    opened.forget();
    Object.assign(this.#switches, { activeMutant: activeMutant.id, hitCount: 0, hitLimit });
    /**
     * @param {string} failureMessage
     * @param {string} id
     * @param {number} nrOfTests
     * @returns {import('@stryker-mutator/api/test-runner').MutantRunResult}
     */
    const killed = (failureMessage, id, nrOfTests) => ({
      status: MutantRunStatus.Killed,
      killedBy: [id],
      failureMessage,
      nrOfTests,
    });
    let ran = 0;
    try {
      const tests = await opened.reaching([sandboxFileName]);
      tests.sort((one, other) => (this.#took.get(one.id) ?? 0) - (this.#took.get(other.id) ?? 0));
      for (const test of tests) {
        if ((this.#took.get(test.id) ?? 0) > longest) continue;
        ran += 1;
        const failureMessage = await this.#failureOf(test);
        if (failureMessage !== undefined) return killed(failureMessage, test.id, ran);
      }
      return { status: MutantRunStatus.Survived, nrOfTests: ran };
    } catch (error) {
      // nothing could be loaded: whoever runs the tests notices that
      return killed(error instanceof Error ? error.message : String(error), 'loading', ran);
    } finally {
      this.#switches.activeMutant = undefined;
      opened.forget();
    }
  }

  async dispose() {
    await (await this.#opened)?.close();
  }
}

const runnerFactory = () => new InProcessRunner();
runnerFactory.inject = /** @type {const} */ ([]);

export const strykerPlugins = [declareFactoryPlugin(PluginKind.TestRunner, 'in-process', runnerFactory)];
