import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as measurement from '@countercheck/measurement';
import * as rules from '@countercheck/rules';
import * as inUnits from '@countercheck/rules/in-units';
import { loadRuleSet } from '@countercheck/rules/load';
import * as sampling from '@countercheck/sampling';
import { describe, expect, it } from 'vitest';
import * as signals from '../../packages/signals/src/index.ts';

const root = join(import.meta.dirname, '../..');
const page = readFileSync(join(root, 'docs/functions.md'), 'utf8');
const shared = /```js\n([^]*?)```/.exec(page)![1]!;
const line = /^- \*\*(\w+)\*\* – (.+)\n {2}`(.+)` → `(.+)`$/gm;
const examples = [...page.matchAll(line)].map(([, name, takes, example, gives]) => ({
  name: name!,
  takes: takes!,
  example: example!,
  gives: gives!,
}));

const everything: Record<string, unknown> = {
  ...signals,
  ...sampling,
  ...rules,
  ...measurement,
  ...inUnits,
  loadRuleSet,
};

function valueOf(expression: string): unknown {
  const run = new Function(...Object.keys(everything), `${shared}\nreturn (${expression});`);
  return (run as (...given: unknown[]) => unknown)(...Object.values(everything));
}

/** Numbers count to the digits that the page writes. */
function expectAlike(found: unknown, written: string): void {
  if (typeof found !== 'number') return expect(found).toEqual(valueOf(written));
  const decimals = written.split('.')[1]?.length ?? 0;
  expect(Math.abs(found - Number(written))).toBeLessThanOrEqual(0.5000001 * 10 ** -decimals);
}

describe('the page of functions', () => {
  it.each(examples)('$name: $example gives $gives', ({ example, gives }) => {
    expectAlike(valueOf(example), gives);
  });

  it.each([
    ['measurement', measurement],
    ['rules', { ...rules, ...inUnits, loadRuleSet }],
    ['sampling', sampling],
  ] as const)('has every public function of %s once', (_package, exported) => {
    const functions = Object.entries(exported as Record<string, unknown>)
      .filter(([, value]) => typeof value === 'function')
      .map(([name]) => name);
    const listed = examples.map(({ name }) => name);
    expect(functions.filter((name) => !listed.includes(name))).toEqual([]);
    expect(new Set(listed).size).toBe(listed.length);
  });

  it('shows each function at work in its own example', () => {
    for (const { name, example } of examples)
      if (!/^(rules|frame)\./.test(example)) expect(example, name).toContain(name);
  });

  it('tells the truth about a plain script that lies anywhere', () => {
    const folder = mkdtempSync(join(tmpdir(), 'functions-'));
    try {
      const script = join(folder, 'script.mjs');
      const from = (name: string) => JSON.stringify(join(root, 'packages', name, 'src/index.ts'));
      writeFileSync(
        script,
        `import { fitPowerLaw } from ${from('measurement')};
         import { checkRuleSet } from ${from('rules')};
         import { codeLetter } from ${from('sampling')};
         const fit = fitPowerLaw([{ pressure: 10, flow: 100 }, { pressure: 40, flow: 200 }]);
         console.log(fit.value.exponent.toFixed(3), typeof checkRuleSet, codeLetter(500, 'II'));`,
      );
      const said = execFileSync(process.execPath, ['--import', 'tsx', script], {
        cwd: root,
        encoding: 'utf8',
      });
      expect(said.trim()).toBe('0.500 function H');
    } finally {
      rmSync(folder, { recursive: true });
    }
  }, 60_000);
});
