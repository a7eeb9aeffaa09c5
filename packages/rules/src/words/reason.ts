import type { Checked } from '../compile/criterion.ts';
import type { CheckedGroup } from '../compile/group.ts';
import type { Decision } from '../compile/item.ts';
import { isGap, type Gap } from '../compile/quantity.ts';
import { comparisonWords } from './comparison.ts';
import { gapWords } from './gap.ts';

/** The text with its first letter as a capital and a full stop at the end. */
export function sentence(words: string): string {
  const trimmed = words.trim();
  const start = trimmed.charAt(0).toUpperCase() + trimmed.slice(1);
  return /[.!?]$/.test(start) ? start : `${start}.`;
}

const unique = (words: readonly string[]) => [...new Set(words)];

/** Everything missing in some outcomes, each once. */
export function gapsOf(checked: readonly Checked[], { facts, subject }: Decision): Gap[] {
  const gaps: Gap[] = [];
  for (const each of checked) {
    if (each.holds !== null) continue;
    for (const quantity of each.criterion.uses) {
      const got = quantity.read(facts, subject);
      if (isGap(got)) gaps.push(got);
    }
    if (each.gap?.kind === 'no-limit') gaps.push(each.gap);
  }
  return gaps;
}

/** What is missing, in words, each once. */
export function missingWords(checked: readonly Checked[], decision: Decision): string[] {
  return unique(gapsOf(checked, decision).map(gapWords));
}

function labelled(checked: Checked): string {
  const wordy = checked.gap !== null || checked.criterion.source.check === 'balanced-within';
  if (wordy || (checked.low === null && checked.high === null)) return comparisonWords(checked);
  return `${checked.criterion.quantity.entry.label}: ${comparisonWords(checked)}`;
}

function listed(checked: readonly Checked[], decision: Decision): string {
  const several = decision.options.length + decision.exemptions.length > 1 || checked.length > 1;
  return unique(checked.map(several ? labelled : comparisonWords)).join('; ');
}

function failing(options: readonly CheckedGroup[]): Checked[] {
  return options.flatMap((option) => option.checked.filter((each) => each.holds === false));
}

function openWords(groups: readonly CheckedGroup[], decision: Decision): string {
  const open = groups.filter((group) => group.verdict === 'incomplete');
  return unique(open.map((group) => missingWords(group.checked, decision).join(', '))).join('; or ');
}

function waitingReason(decision: Decision): string {
  const { options, exemptions, applies } = decision;
  const undecided = applies.filter((each) => each.holds === null);
  if (undecided.length > 0)
    return `Whether this applies is open: ${missingWords(undecided, decision).join(', ')}`;
  if (options.length === 0) return 'None of the ways to pass fits this house; ask the office';
  const failed = failing(options);
  const keeping = exemptions.filter((each) => each.group.keepsOpen);
  const exempt = openWords(keeping, decision);
  const start = failed.length === 0 ? '' : `${listed(failed, decision)}; `;
  if (options.every((option) => option.verdict === 'fails'))
    return `${start}an exemption is still open: ${exempt}`;
  const open = openWords(options, decision);
  return `Waiting: ${start}${open}${exempt === '' ? '' : `; an exemption is still open: ${exempt}`}`;
}

function notApplicableReason({ item, applies }: Decision): string {
  if (item.item.doesNotApply) return item.item.doesNotApply;
  const why = applies.filter((each) => each.holds === false).map(comparisonWords);
  return `Does not apply: ${unique(why).join('; ')}`;
}

/** The verdict in one sentence for people. */
export function reasonWords(decision: Decision): string {
  const { status, decidedBy, item } = decision;
  if (decision.none) return sentence(item.item.whenNone!.words);
  if (status === 'not-applicable') return sentence(notApplicableReason(decision));
  if (status === 'waiting') return sentence(waitingReason(decision));
  if (status === 'fail') return sentence(listed(failing(decision.options), decision));
  const numbers = decidedBy!.checked.filter((each) => each.low !== null || each.high !== null);
  if (status === 'exempt') {
    const because = numbers.length > 0 ? ` (${unique(numbers.map(labelled)).join('; ')})` : '';
    return sentence(`Exempt: ${decidedBy!.group.title}${because}`);
  }
  return sentence(listed(numbers.length > 0 ? numbers : decidedBy!.checked, decision));
}
