import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { record } from '../../kernel/records/events.ts';
import { queueMail } from '../../kernel/records/mail.ts';
import { companyOptions, dayAt } from '../assessment/index.ts';
import { compareTwice } from './compare.ts';
import type { SecondMeasurement } from './second-measurement.ts';

/**
 * Compares what a submitted re-test measured with the first measurement, and keeps it. The house, its verdicts and
 * its released file stay as they are; what a difference means is for the quality manager to say.
 */
export async function finishRetest(
  db: Db,
  actor: UserActor,
  requestId: string,
  visit: { id: string; houseId: string; house: { address: string } },
  { scope }: Pick<SecondMeasurement, 'scope'>,
  publicUrl: string,
): Promise<void> {
  const retest = await db.retest.findUnique({ where: { visitId: visit.id }, include: { rater: true } });
  if (retest?.state !== 'booked') return;
  const { timezone } = await companyOptions(db);
  const doneAt = new Date();
  const rows = await compareTwice(db, retest, visit.id, scope, dayAt(doneAt, timezone));
  if (rows.length > 0) await db.retestComparison.createMany({ data: rows });
  const differing = rows.filter(({ agrees }) => !agrees);
  const outcome =
    rows.length === 0 ? null : differing.length > 0 ? ('differs' as const) : ('agrees' as const);
  await db.retest.update({ where: { id: retest.id }, data: { state: 'done', doneAt, outcome } });
  await record(db, actor, requestId, {
    action: 're-test compared',
    recordType: 're-test',
    recordId: retest.id,
    houseId: visit.houseId,
    before: { state: retest.state },
    after: {
      ...{ state: 'done', outcome, compared: rows.length },
      differing: differing.map(({ label, subjectLabel, first, second, allowed, unit }) => ({
        ...{ label, subjectLabel, first, second, allowed, unit },
      })),
    },
  });
  if (differing.length === 0) return;
  const managers = await db.user.findMany({
    where: { role: 'quality', active: true },
    select: { email: true },
  });
  const many = differing.length === 1 ? 'One result differs' : `${differing.length} results differ`;
  await queueMail(
    db,
    ...managers.map(({ email }) => ({
      recipient: email,
      subject: `Re-test: ${many.toLowerCase()} at ${visit.house.address}`,
      body: `${many} by more than tolerance and uncertainty allow: ${publicUrl}/retests/${retest.id}\n`,
      about: 're-test',
    })),
  );
}
