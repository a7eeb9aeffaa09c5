import { assess, subjectsOf, type HouseFile } from '@countercheck/assessment';
import { testDefinitions } from '@countercheck/measurement';
import { reportedFigures, type ItemVerdict } from '@countercheck/rules';
import type { Db } from '../../kernel/database/database.ts';
import { compiledRuleSet, loadSecondFile, type CompiledRuleSet } from '../assessment/index.ts';
import { decisive, scopeOf, type Measured } from './scope.ts';

export interface SecondMeasurement {
  file: HouseFile;
  ruleSet: CompiledRuleSet;
  /** the items whose tests are measured again, each waiting or measured; none is judged but what can hurt somebody */
  verdicts: ItemVerdict[];
  stopWork: string[];
  scope: Measured[];
  /** what of the scope has no reading of this visit that counts */
  missing: Measured[];
}

/** Says of every reported figure that it is kept back, so that the page does not call it unsigned. */
function hiddenOf(file: HouseFile): HouseFile['hidden'] {
  const tests = new Set(reportedFigures.flatMap((figure) => figure.tests));
  return [...tests].flatMap((test) =>
    subjectsOf(file)
      .filter(({ kind }) => kind === testDefinitions[test].subject)
      .map(({ id }) => ({ test, subjectId: id })),
  );
}

const concerns =
  ({ tests, subjectKind, subjectId }: ItemVerdict) =>
  (each: Measured) =>
    tests.includes(each.test) &&
    (testDefinitions[each.test].subject !== subjectKind || each.subjectId === subjectId);

const settled =
  'Measured again. It is compared with the first reading when you submit; nothing is judged here.';

function withoutJudgement(verdict: ItemVerdict, missing: readonly Measured[]): ItemVerdict {
  if (verdict.safety && verdict.status === 'fail') return verdict;
  const open = missing.filter(concerns(verdict));
  const titles = [...new Set(open.map(({ test }) => testDefinitions[test].title))];
  const status = open.length > 0 ? ('waiting' as const) : ('exempt' as const);
  const reason = open.length > 0 ? `Not measured again yet: ${titles.join(', ')}.` : settled;
  return { ...verdict, status, reason, closeToLimit: false, closeWords: null };
}

/**
 * A second measurement as far as its own visit has come. It rests on the readings of that visit alone; the first
 * readings, their verdicts and the installer's figures are never loaded into what it gives out.
 */
export async function secondMeasurement(
  db: Db,
  visit: { id: string; houseId: string },
): Promise<SecondMeasurement> {
  const { ruleSetId } = await db.house.findUniqueOrThrow({
    where: { id: visit.houseId },
    select: { ruleSetId: true },
  });
  const ruleSet = await compiledRuleSet(db, ruleSetId);
  const own = await loadSecondFile(db, visit.houseId, visit.id);
  const file = { ...own, hidden: hiddenOf(own) };
  const retest = await db.retest.findUnique({ where: { visitId: visit.id } });
  const scope = await scopeOf(db, retest ?? { houseId: visit.houseId, scope: null });
  const done = decisive(file);
  const missing = scope.filter(({ test, subjectId }) => !done.has(`${test}/${subjectId}`));
  const { scorecard } = assess(file, ruleSet.evaluate);
  const verdicts = scorecard.verdicts
    .filter((verdict) => scope.some(concerns(verdict)) || (verdict.safety && verdict.status === 'fail'))
    .map((verdict) => withoutJudgement(verdict, missing));
  return { file, ruleSet, verdicts, stopWork: scorecard.stopWork, scope, missing };
}
