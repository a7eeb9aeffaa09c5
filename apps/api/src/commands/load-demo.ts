import { demoPassword, writeDemo } from '@countercheck/prisma/demo';
import { compiledRuleSet, reassess } from '../features/assessment/index.ts';
import { publishRuleSets, readRuleSets } from '../features/rule-sets/index.ts';
import { releaseFile } from '../features/review/index.ts';
import { planWeek } from './demo/plan-week.ts';
import { fillDesk } from './demo/fill-desk.ts';
import { drawPast } from './demo/finished-draw.ts';
import { openBatch } from './demo/open-batch.ts';
import { sealPast } from './demo/seal-past.ts';
import { hashPassword } from '../features/session/index.ts';
import { system } from '../kernel/actor.ts';
import { openDatabase, type Db } from '../kernel/database/database.ts';
import { secretBox } from '../kernel/secrets/box.ts';

/**
 * Loads the demo company when the database is empty, all or nothing, and leaves any other alone.
 * DATABASE_URL may be the owner's or the app's.
 */
const url = process.env['DATABASE_URL'];
if (!url) throw new Error('DATABASE_URL is not set.');

const database = openDatabase(url, 2, (error) => console.error(error.message));
const sets = await readRuleSets();
const load = async (db: Db) => {
  await publishRuleSets(db, sets);
  if ((await db.user.count()) > 0) return;
  const { id } = await db.ruleSet.findFirstOrThrow({
    // The houses of the past year were registered under the version of then, and a newer one is chosen by a person.
    where: { key: 'common-practice', version: '2026.1' },
    select: { id: true },
  });
  const { evaluate } = await compiledRuleSet(db, id);
  await db.company.update({ where: { id: 1 }, data: { defaultRuleSetId: id } });
  const passwordHash = await hashPassword(demoPassword);
  const { stories, year, cast } = await writeDemo(db, {
    ruleSet: { id, evaluate },
    passwordHash,
    today: new Date(),
    seal: (year, { quality: reviewer }) => sealPast(db, reviewer, year),
  });
  const quality = { kind: 'user', role: 'quality', builderId: null, ...cast.quality } as const;
  await fillDesk(db, cast, year);
  const publicUrl = process.env['PUBLIC_URL'] ?? 'http://localhost:4300';
  for (const { house, stage } of stories) {
    await reassess(db, system, null, house.id);
    if (stage === 'released') await releaseFile(db, quality, null, house.id, { note: null, publicUrl });
  }
  await drawPast(db, cast, year, secretBox(process.env['SECRET_KEY'] ?? '', 'draw seeds'));
  await openBatch(db, { stories, year, cast });
  await planWeek(db, { stories, cast });
};
// All in one transaction, which on a slow machine may take its time.
await database.as(system, load, { timeoutMs: 300_000 });
await database.close();
