import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { Prisma } from '@countercheck/prisma';
import type { UserActor } from '../../../kernel/actor.ts';
import type { Database } from '../../../kernel/database/database.ts';
import { begun } from '../../../kernel/http/begun.ts';
import { csvLine } from '../../../kernel/http/csv.ts';
import { implement } from '../../../kernel/http/implement.ts';
import { companyOptions, dayAt } from '../../assessment/index.ts';
import { chosenItems, type BoardFilter } from './filter.ts';

const batch = 2_000;
const columns = [
  ...['failed_on', 'closed_on', 'days_open', 'state', 'builder', 'community', 'plan', 'address', 'lot'],
  ...['item', 'part', 'trade', 'by_how_much', 'times_failed'],
];

interface Row {
  id: string;
  openedAt: Date;
  closedAt: Date | null;
  days: number;
  state: string;
  builder: string;
  community: string;
  plan: string | null;
  address: string;
  lot: string;
  title: string;
  part: string;
  trade: string;
  reason: string;
  times: number;
}

async function* lines(
  database: Database,
  actor: UserActor,
  filter: BoardFilter,
  timezone: string,
): AsyncGenerator<string> {
  for (let after: string | undefined; ;) {
    const rows = await database.as(
      actor,
      (db) => db.$queryRaw<Row[]>`
        SELECT f.id, f.opened_at AS "openedAt", f.closed_at AS "closedAt", f.state::text AS state, f.title, f.trade, f.reason,
          floor(extract(epoch FROM coalesce(f.closed_at, now()) - f.opened_at) / 86400)::int AS days,
          f.subject_label AS part, f.times_failed AS times, h.address, h.lot, b.name AS builder, c.name AS community, p.name AS plan
        FROM failed_items f JOIN houses h ON h.id = f.house_id JOIN builders b ON b.id = h.builder_id
        JOIN communities c ON c.id = h.community_id LEFT JOIN plans p ON p.id = h.plan_id
        WHERE ${chosenItems(filter, timezone)} ${after === undefined ? Prisma.empty : Prisma.sql`AND f.id > ${after}::uuid`}
        ORDER BY f.id LIMIT ${batch}`,
    );
    // Spreadsheets know UTF-8 by this mark only.
    if (after === undefined) yield `\uFEFF${csvLine(columns)}`;
    yield rows
      .map((row) =>
        csvLine([
          dayAt(row.openedAt, timezone),
          row.closedAt && dayAt(row.closedAt, timezone),
          ...[row.days, row.state, row.builder, row.community, row.plan, row.address, row.lot],
          ...[row.title, row.part, row.trade, row.reason, row.times],
        ]),
      )
      .join('');
    if (rows.length < batch) return;
    after = rows.at(-1)!.id;
  }
}

export function exportFailedItems(app: FastifyInstance): void {
  implement(app, routes.failedBoard.export, async ({ actor, database, query, reply }) => {
    const { timezone } = await database.read(actor, companyOptions);
    return reply
      .type('text/csv; charset=utf-8')
      .header('content-disposition', 'attachment; filename="failed-items.csv"')
      .header('cache-control', 'no-store')
      .send(await begun(lines(database, actor, query, timezone)));
  });
}
