import type { Prisma } from '@countercheck/prisma';
import type { RuleSet } from '@countercheck/rules';
import { system } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { record } from '../../kernel/records/events.ts';
import { dayAt } from '../assessment/index.ts';
import { currentCompany, ensureCompany } from './company.ts';
import { ruleSetHash } from './hash.ts';

async function publish(db: Db, set: RuleSet): Promise<void> {
  const { key, version, title } = set;
  const hash = ruleSetHash(set);
  const known = await db.ruleSet.findUnique({ where: { key_version: { key, version } } });
  if (known && known.hash !== hash) {
    throw new Error(
      `Rule set ${key} ${version} was published with other content (${known.hash.slice(0, 12)}… there, ` +
        `${hash.slice(0, 12)}… here). A published version never changes: put the change into a new version.`,
    );
  }
  if (known) return;
  const body = set as unknown as Prisma.InputJsonObject;
  const effectiveOn = new Date(set.effective);
  const row = await db.ruleSet.create({ data: { key, version, title, effectiveOn, body, hash } });
  await record(db, system, null, {
    action: 'rule set published',
    recordType: 'rule set',
    recordId: row.id,
    after: { key, version, title, hash },
  });
}

/** A set that rests on none but its own earlier versions. */
function standsAlone({ key, inherits }: RuleSet, sets: readonly RuleSet[]): boolean {
  if (!inherits) return true;
  const base = sets.find((each) => each.key === inherits.key && each.version === inherits.version);
  return inherits.key === key && base !== undefined && standsAlone(base, sets);
}

/** New houses are judged by the newest set in force that stands on its own, until the administrator chooses. */
async function chooseDefault(db: Db, sets: readonly RuleSet[]): Promise<void> {
  const company = await currentCompany(db);
  if (company.defaultRuleSetId !== null) return;
  const today = dayAt(new Date(), company.timezone);
  const own = sets.filter((set) => set.published && standsAlone(set, sets) && set.effective <= today);
  const newest = own.toSorted((a, b) => b.effective.localeCompare(a.effective))[0];
  if (!newest) return;
  const { key, version } = newest;
  const row = await db.ruleSet.findUniqueOrThrow({ where: { key_version: { key, version } } });
  await db.company.update({ where: { id: 1 }, data: { defaultRuleSetId: row.id } });
}

/** What has to be in the database before the first request. Of processes starting together, one at a time. */
export async function publishRuleSets(db: Db, sets: readonly RuleSet[]): Promise<void> {
  await db.$executeRaw`SELECT pg_advisory_xact_lock(5047212)`;
  await ensureCompany(db);
  for (const set of sets) if (set.published) await publish(db, set);
  await chooseDefault(db, sets);
}
