import type { QuantityKind } from '@countercheck/measurement';
import { isNumeric, type Entry } from '../catalog/entry.ts';
import { findEntry } from '../catalog/index.ts';
import type { Criterion, Limit } from '../schema/index.ts';
import { checkLimit, type LimitContext } from './limit.ts';
import type { RuleProblem } from './problem.ts';

type Path = RuleProblem['path'];

function lookUp(name: string, context: LimitContext, path: Path, problems: RuleProblem[]): Entry | null {
  const entry = findEntry(name, context.item);
  if (typeof entry !== 'string') return entry;
  problems.push({ path, message: entry });
  return null;
}

function checkValue(entry: Entry, value: string | number | boolean, path: Path): RuleProblem[] {
  const wanted = entry.kind === 'yes-no' ? 'boolean' : entry.kind === 'text' ? 'string' : 'number';
  if (typeof value !== wanted)
    return [{ path, message: `"${entry.name}" is a ${wanted}, not ${JSON.stringify(value)}` }];
  if (entry.values && !entry.values.includes(String(value)))
    return [{ path, message: `"${String(value)}" is none of ${entry.values.join(', ')}` }];
  return [];
}

function checkOrder(low: Limit, high: Limit, path: Path): RuleProblem[] {
  if (low.kind !== 'constant' || high.kind !== 'constant' || low.value <= high.value) return [];
  return [
    { path: [...path, 'low'], message: `the low limit ${low.value} is above the high limit ${high.value}` },
  ];
}

/** Problems of one criterion: unknown or unsuitable quantities, units that do not match, a missing limit. */
export function checkCriterion(criterion: Criterion, context: LimitContext, path: Path): RuleProblem[] {
  const problems: RuleProblem[] = [];
  const entry = lookUp(criterion.quantity, context, [...path, 'quantity'], problems);
  if (!entry || criterion.check === 'recorded') return problems;
  if (criterion.check === 'is')
    return [...problems, ...checkValue(entry, criterion.value, [...path, 'value'])];
  if (criterion.check === 'one-of')
    return [
      ...problems,
      ...criterion.values.flatMap((value, i) => checkValue(entry, value, [...path, 'values', i])),
    ];
  if (!isNumeric(entry)) return [{ path: [...path, 'quantity'], message: `"${entry.name}" is not a number` }];

  let compared: QuantityKind = entry.kind;
  const base = 'of' in criterion ? criterion.of : 'with' in criterion ? criterion.with : null;
  if (base !== null) {
    const at = [...path, 'of' in criterion ? 'of' : 'with'];
    const other = lookUp(base, context, at, problems);
    if (other && other.kind !== entry.kind)
      problems.push({ path: at, message: `"${base}" is not of the same kind as "${entry.name}"` });
    compared = 'share';
  }
  if ('low' in criterion) {
    problems.push(...checkLimit(criterion.low, compared, context, [...path, 'low']));
    problems.push(...checkLimit(criterion.high, compared, context, [...path, 'high']));
    problems.push(...checkOrder(criterion.low, criterion.high, path));
    return problems;
  }
  if (criterion.limit) problems.push(...checkLimit(criterion.limit, compared, context, [...path, 'limit']));
  else if (context.item.limit) problems.push(...checkLimit(context.item.limit, compared, context, ['limit']));
  else problems.push({ path, message: 'neither the criterion nor the item has a limit' });
  return problems;
}
