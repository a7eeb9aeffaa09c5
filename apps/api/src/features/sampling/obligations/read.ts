import type { FastifyInstance } from 'fastify';
import { routes, type Meter, type ObligationShareRow } from '@countercheck/contracts';
import { obligationMeter, shareInForce } from '@countercheck/sampling';
import { Prisma } from '@countercheck/prisma';
import type { Db } from '../../../kernel/database/database.ts';
import { implementInTransaction } from '../../../kernel/http/implement.ts';
import { invalid } from '../../../kernel/problems/app-error.ts';
import { companyOptions, dayAt } from '../../assessment/index.ts';
import { countFiles, sharesInForce } from '../../population/index.ts';

interface Period {
  from: string;
  to: string;
  today: string;
}

interface Counted {
  rater: string;
  done: number;
  open: number;
  overdue: number;
}

/** Per rater: done in the period, and open whenever it was ordered. */
function counted(db: Db, table: 'file_reviews' | 'retests', period: Period, timezone: string) {
  const open = table === 'file_reviews' ? ['open'] : ['ordered', 'booked'];
  return db.$queryRaw<Counted[]>`
    SELECT rater_id::text AS rater,
      (count(*) FILTER (WHERE (done_at AT TIME ZONE ${timezone})::date
        BETWEEN ${period.from}::date AND ${period.to}::date AND state <> 'withdrawn'))::int AS done,
      (count(*) FILTER (WHERE state::text = ANY(${open})))::int AS open,
      (count(*) FILTER (WHERE state::text = ANY(${open}) AND due_on < ${period.today}::date))::int AS overdue
    FROM ${Prisma.raw(table)} GROUP BY rater_id`;
}

function meter(
  period: Period,
  usual: ObligationShareRow,
  raised: readonly (number | null)[],
  files: number,
  work: Counted | undefined,
): Meter {
  const share = shareInForce(
    usual.share,
    raised.map((each) => (each === null ? null : Math.round(each * 10_000))),
  );
  const { done = 0, open = 0, overdue = 0 } = work ?? {};
  return {
    ...obligationMeter({ ...period, files, done, share, minimum: usual.minimum }),
    ...{ share, raised: share > usual.share, open, overdue },
  };
}

async function obligations(db: Db, period: Period, timezone: string) {
  const shares = await sharesInForce(db);
  const filter = {
    ...{ from: period.from, to: period.to, state: 'both' as const, leaveOutDone: false },
    ...{ raterId: null, builderId: null, kind: null },
  };
  const files = new Map<string, number>();
  for (const { rater, files: count } of await countFiles(db, filter, 'file-review', timezone))
    files.set(rater, (files.get(rater) ?? 0) + count);
  const byRater = (rows: Counted[]) => new Map(rows.map((row) => [row.rater, row]));
  const reviews = byRater(await counted(db, 'file_reviews', period, timezone));
  const retests = byRater(await counted(db, 'retests', period, timezone));
  const actions = await db.correctiveAction.findMany({
    where: { subject: 'rater', state: 'open', restoredAt: null },
    select: { raterId: true, raisedFileShare: true, raisedFieldShare: true },
  });
  const people = await db.user.findMany({
    where: {
      OR: [
        { role: 'rater', active: true },
        { id: { in: [...new Set([...files.keys(), ...reviews.keys(), ...retests.keys()])] } },
      ],
    },
    select: { id: true, name: true, active: true },
    orderBy: { name: 'asc' },
  });
  const raters = people.map(({ id, name, active }) => {
    const own = actions.filter(({ raterId }) => raterId === id);
    const count = files.get(id) ?? 0;
    return {
      ...{ id, name, active, files: count },
      fileReviews: meter(
        period,
        shares['file-review'],
        own.map(({ raisedFileShare }) => raisedFileShare),
        count,
        reviews.get(id),
      ),
      fieldRetests: meter(
        period,
        shares['field-retest'],
        own.map(({ raisedFieldShare }) => raisedFieldShare),
        count,
        retests.get(id),
      ),
    };
  });
  return { ...period, shares: Object.values(shares), raters };
}

export function readObligations(app: FastifyInstance): void {
  implementInTransaction(app, routes.sampling.obligations, async ({ db, query }) => {
    const { timezone } = await companyOptions(db);
    const today = dayAt(new Date(), timezone);
    const year = today.slice(0, 4);
    const { from = `${year}-01-01`, to = `${year}-12-31` } = query;
    if (from > to) throw invalid('to', 'The last day does not lie before the first');
    return obligations(db, { from, to, today }, timezone);
  });
}
