import { assess, type Assessment, type HouseFile } from '@countercheck/assessment';
import type { Db } from '../../kernel/database/database.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { hideUnread } from './blind.ts';
import { loadHouseFile } from './load-file.ts';
import { compiledRuleSet, type CompiledRuleSet } from './rule-set.ts';

export interface AssessedHouse extends Assessment {
  file: HouseFile;
  ruleSet: CompiledRuleSet;
}

/**
 * Every verdict of a house, worked out now from its raw readings. `blind` works from what a rater may know:
 * a verdict in words would otherwise tell the figure that the file keeps back.
 */
export async function assessHouse(db: Db, houseId: string, { blind = false } = {}): Promise<AssessedHouse> {
  const { ruleSetId } = found(
    await db.house.findUnique({ where: { id: houseId }, select: { ruleSetId: true } }),
    'house',
  );
  const ruleSet = await compiledRuleSet(db, ruleSetId);
  const whole = await loadHouseFile(db, houseId);
  const file = blind ? hideUnread(whole, ruleSet.set) : whole;
  return { file, ruleSet, ...assess(file, ruleSet.evaluate) };
}
