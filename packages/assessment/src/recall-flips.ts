import type { Checked, MeasuredValue, UnitSystem } from '@countercheck/measurement';
import type { Evaluate, ItemVerdict, Status } from '@countercheck/rules';
import { verdictIn } from '@countercheck/rules/in-units';
import { assess, type Assessment } from './assess.ts';
import { withoutError, type Recall, type RecalledReading } from './recall.ts';
import { subjectsOf } from './subjects.ts';
import type { HouseFile } from './types.ts';

/** A verdict that is another one once the error is taken out. */
export interface Flip {
  item: string;
  title: string;
  subjectId: string;
  subjectLabel: string;
  before: Status;
  after: Status;
  reasonBefore: string;
  reasonAfter: string;
  /** `worse`: it may have been passed wrongly; `better`: it may have been held against the builder wrongly */
  direction: 'worse' | 'better' | 'other';
}

/** One reading before and after, by its results. */
export interface ReadingChange extends RecalledReading {
  subjectLabel: string;
  results: { label: string; unit: string; before: number; after: number | null }[];
}

export interface RecallOutcome {
  readings: ReadingChange[];
  flips: Flip[];
  /** a verdict got worse, or a reading's error cannot be taken out: somebody has to measure again */
  revisit: boolean;
}

const clear: readonly Status[] = ['pass', 'exempt', 'not-applicable'];

function directionOf(before: Status, after: Status): Flip['direction'] {
  const [was, is] = [clear.includes(before), clear.includes(after)];
  if (was !== is) return was ? 'worse' : 'better';
  // a failed item that now waits has to be measured again; a waiting one that fails is no surprise to anyone
  return 'other';
}

const keyOf = (each: Pick<ItemVerdict, 'item' | 'subjectId'>) => `${each.item}/${each.subjectId}`;

function flipsBetween(before: Assessment, after: Assessment, system: UnitSystem): Flip[] {
  const now = new Map(after.scorecard.verdicts.map((each) => [keyOf(each), each]));
  return before.scorecard.verdicts.flatMap((was): Flip[] => {
    const is = now.get(keyOf(was));
    if (!is || is.status === was.status) return [];
    const { item, title, subjectId, subjectLabel } = was;
    const direction = directionOf(was.status, is.status);
    const both = { before: was.status, after: is.status, direction };
    const [reasonBefore, reasonAfter] = [verdictIn(was, system).reason, verdictIn(is, system).reason];
    return [{ item, title, subjectId, subjectLabel, ...both, reasonBefore, reasonAfter }];
  });
}

function resultsOf(before: readonly MeasuredValue[], after: readonly MeasuredValue[]) {
  const now = new Map(after.map((each) => [each.key, each.value]));
  return before
    .map(({ key, label, unit, value }) => ({ label, unit, before: value, after: now.get(key) ?? null }))
    .filter((each) => each.before !== each.after);
}

/**
 * What a recall does to one house: each reading that it concerns with its results before and after, and the
 * verdicts that flip, in both directions. Pure; the file stays as it is. Never throws.
 * Problems: those of `withoutError`.
 * @param ruleSet the set that the house is judged by, compiled with `compileRuleSet`
 * @param system the units in which the reasons are told
 */
export function recallOutcome(
  file: HouseFile,
  recall: Recall,
  ruleSet: Evaluate,
  system: UnitSystem = 'us',
): Checked<RecallOutcome> {
  const corrected = withoutError(file, recall);
  if (!corrected.ok) return corrected;
  const before = assess(file, ruleSet);
  const after = assess(corrected.value.file, ruleSet);
  const labels = new Map(subjectsOf(file).map((each) => [each.id, each.label]));
  const place = new Map(before.measured.map((each, i) => [each.readingId, i]));
  const readings = corrected.value.readings.map((each): ReadingChange => {
    const i = place.get(each.readingId)!;
    const [was, is] = [before.measured[i]!, after.measured[i]!];
    const gone = is.values.length === 0 && was.values.length > 0 && each.whyNot === null;
    const whyNot = gone ? (is.whyNot ?? 'Without the error it cannot be computed.') : each.whyNot;
    const subjectLabel = labels.get(each.subjectId) ?? each.subjectId;
    return { ...each, whyNot, subjectLabel, results: resultsOf(was.values, is.values) };
  });
  const flips = flipsBetween(before, after, system);
  const revisit =
    flips.some((each) => each.direction === 'worse') || readings.some((each) => each.whyNot !== null);
  return { ok: true, value: { readings, flips, revisit } };
}
