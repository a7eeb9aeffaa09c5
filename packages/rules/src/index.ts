export * from './types.ts';
export {
  derivedResults,
  findEntry,
  fixedEntries,
  isNumeric,
  measuredEntries,
  reportedFigures,
  type Entry,
  type EntryKind,
  type ReportedFigure,
} from './catalog/index.ts';
export * from './schema/index.ts';
export { checkRuleSet } from './check/index.ts';
export { RuleSetError, type LocatedProblem, type RuleProblem } from './check/problem.ts';
export { tolerance } from './compile/criterion.ts';
export { compileDecisions, decide, type CompiledSet } from './compile/set.ts';
export type { Decision } from './compile/item.ts';
export { compileRuleSet, evaluate, type Evaluate } from './evaluate.ts';
export { explain } from './explain.ts';
export { resolveInheritance, type Inheritance } from './inherit.ts';
export { assumedAccuracies, reportedSpread, type AssumedAccuracy } from './uncertainty/reported.ts';
export type { Spread } from './uncertainty/spread.ts';
