import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { limitsOfAgreement } from '@countercheck/quality';
import { implementInTransaction } from '../../kernel/http/implement.ts';

/** As many as a chart can show apart; the newest are kept. */
const mostPoints = 2000;

/** Differences of one test over time, one series a value, with their mean and limits of agreement. */
export function showDifferences(app: FastifyInstance): void {
  implementInTransaction(app, routes.retests.differences, async ({ db, query }) => {
    const rows = await db.retestComparison.findMany({
      where: { test: query.test, retest: query.raterId ? { raterId: query.raterId } : {} },
      include: {
        retest: {
          select: { house: { select: { address: true } }, rater: { select: { id: true, name: true } } },
        },
      },
      orderBy: [{ takenAt: 'desc' }, { id: 'asc' }],
      take: mostPoints,
    });
    const keys = [...new Set(rows.map(({ value }) => value))];
    return keys.map((key) => {
      const own = rows.filter(({ value }) => value === key).reverse();
      const { label, quantity, unit } = own[0]!;
      return {
        ...{ label, quantity, unit },
        points: own.map((row) => ({
          ...{ retestId: row.retestId, at: row.takenAt.toISOString(), first: row.first, second: row.second },
          ...{ difference: row.second - row.first, allowed: row.allowed, agrees: row.agrees },
          ...{ address: row.retest.house.address, rater: row.retest.rater },
        })),
        limits: limitsOfAgreement(own.map(({ first, second }) => second - first)),
      };
    });
  });
}
