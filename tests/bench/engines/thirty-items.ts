import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Item, RuleSet } from '@countercheck/rules';
import { loadRuleSet } from '@countercheck/rules/load';

const sets = join(import.meta.dirname, '../../../packages/rules/sets');

function shipped(key: string, version: string, base?: RuleSet): RuleSet {
  const folder = join(sets, key, version);
  const files = readdirSync(folder).map((name) => {
    const path = join(folder, name);
    return { path, text: readFileSync(path, 'utf8') };
  });
  return loadRuleSet(files, base);
}

/** Items under new keys, so that two sets stand side by side in one; references follow. */
function renamed(items: readonly Item[], suffix: string): Item[] {
  const keys = new Set(items.map((each) => each.item));
  const text = JSON.stringify(items, (name, value: unknown) =>
    name === 'item' && typeof value === 'string' && keys.has(value) ? `${value}-${suffix}` : value,
  );
  return JSON.parse(text) as Item[];
}

/**
 * Thirty items of the shipped sets in one: common practice (14), the stricter company set (14) and two of the
 * energy code, judged side by side on the same facts.
 */
export function thirtyItems(): RuleSet {
  const common = shipped('common-practice', '2026.1');
  const strict = shipped('company-strict', '2026.1', common);
  const code = shipped('energy-code-2018', '2018.1', common);
  const two = code.items.filter((each) => ['duct-leakage-total', 'envelope-leakage'].includes(each.item));
  const items = [...common.items, ...renamed(strict.items, 'strict'), ...renamed(two, 'code')];
  if (items.length !== 30) throw new Error(`The benchmark wants 30 items, the sets give ${items.length}.`);
  return { ...common, key: 'thirty-items', items };
}
