import { checkRuleSet } from '../check/index.ts';
import { RuleSetError, type LocatedProblem, type RuleProblem } from '../check/problem.ts';
import { resolveInheritance } from '../inherit.ts';
import {
  itemChangesSchema,
  itemSchema,
  setFileSchema,
  type Item,
  type ItemChanges,
  type RuleSet,
  type SetFile,
} from '../schema/index.ts';
import { shape } from './shape.ts';
import { parseText, type Parsed, type TextFile } from './text.ts';

export { parseText, type Parsed, type TextFile } from './text.ts';

interface OwnItem {
  parsed: Parsed;
  data: Item | ItemChanges;
}

const baseName = (path: string) => path.replace(/\\/g, '/').split('/').pop()!;
const isSetFile = (file: TextFile) => baseName(file.path) === 'set.yaml';

function located(parsed: Parsed, path: readonly (string | number)[], message: string): LocatedProblem {
  return { file: parsed.file, line: parsed.lineOf(path), field: path.join('.'), message };
}

function readItem(file: TextFile, problems: LocatedProblem[]): OwnItem[] {
  const parsed = parseText(file);
  const changes = typeof parsed.data === 'object' && parsed.data !== null && 'changes' in parsed.data;
  const shaped = shape<Item | ItemChanges>(parsed, changes ? itemChangesSchema : itemSchema);
  if (!shaped.ok) {
    problems.push(...shaped.problems);
    return [];
  }
  const wanted = baseName(file.path).replace(/\.ya?ml$/, '');
  if (shaped.data.item !== wanted)
    problems.push(
      located(parsed, ['item'], `the file is called "${wanted}", its item "${shaped.data.item}"`),
    );
  return [{ parsed, data: shaped.data }];
}

function checkHeader(
  header: SetFile,
  parsed: Parsed,
  own: readonly OwnItem[],
  base: RuleSet | undefined,
): LocatedProblem[] {
  const problems: LocatedProblem[] = [];
  const { inherits } = header;
  if (inherits && !base)
    problems.push(
      located(parsed, ['inherits'], `needs ${inherits.key} ${inherits.version}, which was not given`),
    );
  if (inherits && base && (base.key !== inherits.key || base.version !== inherits.version))
    problems.push(
      located(
        parsed,
        ['inherits'],
        `needs ${inherits.key} ${inherits.version}, was given ${base.key} ${base.version}`,
      ),
    );
  const keys = own.map((each) => each.data.item);
  (header.items ?? []).forEach((key, i) => {
    if (!keys.includes(key)) problems.push(located(parsed, ['items', i], `there is no file for "${key}"`));
  });
  own.forEach(({ data, parsed: from }, i) => {
    if (keys.indexOf(data.item) < i)
      problems.push(located(from, ['item'], `"${data.item}" stands in two files`));
    const whole = !('changes' in data);
    if (whole && header.items && !header.items.includes(data.item))
      problems.push(located(from, ['item'], `"${data.item}" is not in the list of items of set.yaml`));
  });
  return problems;
}

function locate(problem: RuleProblem, set: RuleSet, header: Parsed, own: readonly OwnItem[]): LocatedProblem {
  const [, index, ...rest] = problem.path;
  const key = typeof index === 'number' ? set.items[index]?.item : undefined;
  const from = own.find((each) => each.data.item === key);
  if (!from)
    return located(
      header,
      [],
      key === undefined ? problem.message : `${key} ${rest.join('.')}: ${problem.message}`,
    );
  return located(from.parsed, 'changes' in from.data ? ['changes', ...rest] : rest, problem.message);
}

/**
 * Builds a rule set from the texts of its folder: `set.yaml` and one file per item. Takes texts, not paths,
 * so that it works wherever the texts come from. `base` is the complete set named by `inherits`.
 * Returns plain data with the inheritance resolved. Throws `RuleSetError` with every problem found, each
 * with file, line and field.
 */
export function loadRuleSet(files: readonly TextFile[], base?: RuleSet): RuleSet {
  const setFile = files.find(isSetFile);
  if (!setFile)
    throw new RuleSetError([{ file: 'set.yaml', line: 1, field: '', message: 'the file is missing' }]);
  const problems: LocatedProblem[] = [];
  const parsed = parseText(setFile);
  const header = shape(parsed, setFileSchema);
  if (!header.ok) problems.push(...header.problems);
  // sorted, so that the result does not hang on the order in which a folder is listed
  const others = files.filter((file) => !isSetFile(file)).sort((a, b) => (a.path < b.path ? -1 : 1));
  const own = others.flatMap((file) => readItem(file, problems));
  if (!header.ok) throw new RuleSetError(problems);
  if (problems.length === 0) problems.push(...checkHeader(header.data, parsed, own, base));
  if (problems.length > 0) throw new RuleSetError(problems);
  const resolved = resolveInheritance(
    header.data,
    own.map((each) => each.data),
    base ?? null,
  );
  for (const problem of resolved.problems) {
    const from = own.find((each) => each.data.item === problem.item);
    problems.push(located(from?.parsed ?? parsed, from ? ['item'] : ['without'], problem.message));
  }
  if (resolved.set.items.length === 0) problems.push(located(parsed, ['items'], 'the set has no items'));
  problems.push(...checkRuleSet(resolved.set).map((each) => locate(each, resolved.set, parsed, own)));
  if (problems.length > 0) throw new RuleSetError(problems);
  return resolved.set;
}
