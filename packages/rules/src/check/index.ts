import type { Criterion, Item, RuleSet } from '../schema/index.ts';
import { checkCriterion } from './criterion.ts';
import type { RuleProblem } from './problem.ts';

type Path = RuleProblem['path'];

function repeated(keys: readonly string[], path: Path, field: string): RuleProblem[] {
  return keys.flatMap((key, i) =>
    keys.indexOf(key) < i ? [{ path: [...path, i, field], message: `"${key}" stands here twice` }] : [],
  );
}

function checkItem(item: Item, set: RuleSet): RuleProblem[] {
  const context = { set, item };
  const all = (criteria: readonly Criterion[] | undefined, path: Path): RuleProblem[] =>
    (criteria ?? []).flatMap((criterion, i) => checkCriterion(criterion, context, [...path, i]));
  const exemptions = item.exemptions ?? [];
  return [
    ...all(item.appliesWhen, ['appliesWhen']),
    ...all(item.appliesWhenAny, ['appliesWhenAny']),
    ...item.options.flatMap((option, i) => [
      ...all(option.when, ['options', i, 'when']),
      ...all(option.require, ['options', i, 'require']),
    ]),
    ...exemptions.flatMap((exemption, i) => all(exemption.require, ['exemptions', i, 'require'])),
    ...(item.stopWork ?? []).flatMap((stop, i) => all(stop.require, ['stopWork', i, 'require'])),
    ...repeated(
      item.options.map((each) => each.option),
      ['options'],
      'option',
    ),
    ...repeated(
      exemptions.map((each) => each.exemption),
      ['exemptions'],
      'exemption',
    ),
  ];
}

/**
 * What is wrong with a rule set beyond its shape: quantities nobody knows, limits in another unit than the
 * quantity, climate zones without a limit, keys used twice. Empty when the set can be used. The paths lead
 * into the set as given.
 */
export function checkRuleSet(set: RuleSet): RuleProblem[] {
  return [
    ...repeated(
      set.items.map((each) => each.item),
      ['items'],
      'item',
    ),
    ...set.items.flatMap((item, i) =>
      checkItem(item, set).map((problem) => ({ ...problem, path: ['items', i, ...problem.path] })),
    ),
  ];
}
