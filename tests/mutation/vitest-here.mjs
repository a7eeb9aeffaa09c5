import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import * as chaiParts from '@vitest/expect';
import { chai, setState } from '@vitest/expect';

/**
 * What the packages' tests use of Vitest, for tests that run in the process that loaded them: suites and cases are
 * noted down instead of run, and the assertions are Vitest's own. A word that is missing here fails at loading.
 *
 * @typedef {{ name: string, run: () => unknown }} Case
 * @typedef {{ path: string[], cases: Case[] }} Collected
 */

chai.use(chaiParts.JestExtend);
chai.use(chaiParts.JestChaiExpect);
chai.use(chaiParts.JestAsymmetricMatchers);

/** A text kept in a file beside the tests; it is written by Vitest only. */
chai.use((_chai, { addMethod }) => {
  addMethod(
    chai.Assertion.prototype,
    'toMatchFileSnapshot',
    /** @this {any} @param {string} path */ function (path) {
      const kept = readFileSync(join(dirname(String(here.testFile)), path), 'utf8');
      new chai.Assertion(this._obj === kept).to.equal(true);
    },
  );
});

const here = /** @type {Record<PropertyKey, any>} */ (globalThis);

/** @type {any} */
export const expect = (/** @type {unknown} */ value, /** @type {string | undefined} */ message) =>
  chai.expect(value, message);
Object.assign(expect, chai.expect, here[chaiParts.ASYMMETRIC_MATCHERS_OBJECT]);
here[chaiParts.GLOBAL_EXPECT] = expect;
setState({ assertionCalls: 0 }, expect);

const collected = () => /** @type {Collected} */ (here.collectedCases);

/** @param {string} name @param {() => unknown} define */
export function describe(name, define) {
  collected().path.push(name);
  define();
  collected().path.pop();
}

/** @param {string} name @param {() => unknown} run */
export function it(name, run) {
  collected().cases.push({ name: [...collected().path, name].join(' '), run });
}

/**
 * @param {(name: string, run: () => unknown) => void} each
 * @returns {(rows: unknown[]) => (name: string, run: (...row: any[]) => unknown) => void}
 */
const overRows = (each) => (rows) => (name, run) => {
  rows.forEach((row, index) => {
    const given = Array.isArray(row) ? row : [row];
    each(`${name} [${index}]`, () => run(...given));
  });
};
describe.each = overRows(describe);
it.each = overRows(it);
