import { compileRuleSet, type Evaluate, type RuleSet } from '@countercheck/rules';
import type { Db } from '../../kernel/database/database.ts';
import { found } from '../../kernel/problems/app-error.ts';

export interface CompiledRuleSet {
  id: string;
  key: string;
  version: string;
  title: string;
  hash: string;
  set: RuleSet;
  evaluate: Evaluate;
}

// A published version never changes, so what was compiled once stays right for as long as the process lives.
const compiled = new Map<string, CompiledRuleSet>();
const mostKept = 40;

/** The rule set a house was pinned to, ready to decide; compiled once a process and content. */
export async function compiledRuleSet(db: Db, ruleSetId: string): Promise<CompiledRuleSet> {
  const head = found(
    await db.ruleSet.findUnique({ where: { id: ruleSetId }, omit: { body: true } }),
    'rule set',
  );
  const place = `${head.id}/${head.hash}`;
  const known = compiled.get(place);
  if (known) return known;
  const { body } = await db.ruleSet.findUniqueOrThrow({ where: { id: ruleSetId }, select: { body: true } });
  const set = body as unknown as RuleSet;
  const { id, key, version, title, hash } = head;
  const fresh = { id, key, version, title, hash, set, evaluate: compileRuleSet(set) };
  const oldest = compiled.keys().next();
  if (compiled.size >= mostKept && !oldest.done) compiled.delete(oldest.value);
  compiled.set(place, fresh);
  return fresh;
}
