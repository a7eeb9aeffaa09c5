import type { VisitSheet } from '@countercheck/contracts';
import { assess, type FileReading } from '@countercheck/assessment';
import { compileRuleSet, type Evaluate, type ItemVerdict, type RuleSet } from '@countercheck/rules';
import { fileOf } from '../sheet/verdicts.ts';

const compiled = new Map<string, Evaluate | null>();

/** The set compiled, or null where it cannot be. A house keeps its set for life: compiling once serves the day. */
export function evaluatorOf({ id, body }: VisitSheet['ruleSet']): Evaluate | null {
  const known = compiled.get(id);
  if (known !== undefined) return known;
  let made: Evaluate | null;
  try {
    made = compileRuleSet(body as RuleSet);
  } catch {
    // The server judges anyway; without a preview the reading can still be recorded.
    made = null;
  }
  compiled.set(id, made);
  return made;
}

/** The verdict as it would be with this reading added, and without the one it corrects. */
export function previewVerdict(
  sheet: Pick<VisitSheet, 'file' | 'ruleSet'>,
  { item, subjectId }: { item: string; subjectId: string },
  reading: FileReading,
  corrects: string | null,
): ItemVerdict | null {
  const evaluate = evaluatorOf(sheet.ruleSet);
  if (!evaluate) return null;
  const file = fileOf(sheet);
  const replaced = (each: FileReading) =>
    each.id === corrects || (each.test === reading.test && each.subjectId === reading.subjectId);
  const readings = [...file.readings.filter((each) => !replaced(each)), reading];
  const { scorecard } = assess({ ...file, readings }, evaluate);
  return scorecard.verdicts.find((each) => each.item === item && each.subjectId === subjectId) ?? null;
}
