import type { Checked } from './compile/criterion.ts';
import type { CheckedGroup } from './compile/group.ts';
import type { Decision } from './compile/item.ts';
import type { CompiledSet } from './compile/set.ts';
import type { Comparison, DecisionRule, ItemVerdict, Trace } from './types.ts';
import { aheadOf, changeWords } from './words/change.ts';
import { closeWords } from './words/closeness.ts';
import { toComparison } from './words/comparison.ts';
import { inputsOf, readingsOf } from './words/inputs.ts';
import { missingWords, reasonWords } from './words/reason.ts';
import { takeWords } from './words/take.ts';

type Compare = (checked: Checked) => Comparison;

const simple: DecisionRule = { rule: 'simple-acceptance' };

/** The groups whose limits entered the verdict. */
function entering({ decidedBy, options, stopWork, status }: Decision): readonly CheckedGroup[] {
  if (decidedBy) return [decidedBy, ...stopWork];
  const failed = options.filter((each) => each.verdict === 'fails');
  return [...(status === 'fail' ? failed : options), ...stopWork];
}

/** A guard band that could not be kept is no secret. */
function unguarded(decision: Decision): string[] {
  if (decision.facts.decision?.rule !== 'guard-band') return [];
  const open = entering(decision)
    .flatMap((each) => each.checked)
    .filter((each) => each.criterion.guarded && each.spread === null && (each.low ?? each.high) !== null);
  const labels = [...new Set(open.map((each) => each.criterion.quantity.entry.label))];
  return labels.map((label) => `No uncertainty is known for the ${label}, so no guard band was kept.`);
}

function traceOf(decision: Decision, compare: Compare): Trace {
  const readings = readingsOf(decision);
  const common = ({ group, checked, verdict }: CheckedGroup) => ({
    title: group.title,
    comparisons: checked.map(compare),
    verdict,
    source: group.source,
  });
  return {
    applies: decision.applies.map((each) => {
      const comparison = compare(each);
      const words = { words: comparison.words, holds: each.holds === true };
      return comparison.said ? { ...words, comparison } : words;
    }),
    exemptions: decision.exemptions.map((each) => ({ exemption: each.group.key, ...common(each) })),
    options: decision.options.map((each) => ({
      option: each.group.key,
      ...common(each),
      missing: missingWords(each.checked, decision),
    })),
    decidedBy: decision.decidedBy?.group.key ?? null,
    inputs: decision.none ? [] : inputsOf(decision),
    wouldChange: changeWords(decision),
    decisionRule: decision.facts.decision ?? simple,
    limitConfirmed: entering(decision).every((each) => each.group.source.confirmed),
    readingIds: [...new Set(readings.flatMap((each) => each.readingIds))],
    steps: readings.flatMap((each) => each.steps),
    remarks: [...new Set([...readings.flatMap((each) => each.remarks), ...unguarded(decision)])],
  };
}

function decidingOf({ status, decidedBy, options }: Decision): Checked | null {
  const numeric = (checked: readonly Checked[]) =>
    checked.filter((each) => each.low !== null || each.high !== null);
  if (decidedBy) return numeric(decidedBy.checked)[0] ?? decidedBy.checked[0] ?? null;
  const all = options.flatMap((each) => each.checked);
  if (status === 'fail') {
    const failed = all.filter((each) => each.holds === false);
    return numeric(failed)[0] ?? failed[0] ?? null;
  }
  return all.find((each) => each.value !== null) ?? null;
}

function withAhead(checked: Checked, decision: Decision): Comparison {
  const comparison = toComparison(checked, decision);
  if (checked.value !== null || checked.criterion.quantity.test === null) return comparison;
  const ahead = aheadOf(checked, decision);
  return ahead.low === null && ahead.high === null ? comparison : { ...comparison, ahead };
}

/** A decision in words: the plain, serialisable verdict with its whole trace. Pure. */
export function explain(decision: Decision, set: Pick<CompiledSet, 'dependsOn'>): ItemVerdict {
  const made = new Map<Checked, Comparison>();
  const compare: Compare = (checked) => {
    const known = made.get(checked) ?? withAhead(checked, decision);
    made.set(checked, known);
    return known;
  };
  const { item } = decision.item;
  const deciding = decidingOf(decision);
  const close = closeWords(decision);
  const stopWork = decision.stopWork.map((each) => each.group.title);
  return {
    item: item.item,
    title: item.title,
    stage: item.stage,
    subjectId: decision.subject.id,
    subjectKind: decision.subject.kind,
    subjectLabel: decision.subject.label,
    tests: [...item.tests],
    status: decision.status,
    reason: reasonWords(decision),
    closeToLimit: close !== null,
    closeWords: close,
    takes: takeWords(decision),
    headline: deciding && compare(deciding),
    trace: traceOf(decision, compare),
    dependsOn: [...(set.dependsOn.get(item.item) ?? [])],
    trade: item.trade,
    correction: item.correction,
    cautions: [...item.cautions],
    safety: item.safety,
    stopWork: stopWork.length > 0 ? stopWork.join(' ') : null,
  };
}
