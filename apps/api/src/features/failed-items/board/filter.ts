import { Prisma } from '@countercheck/prisma';

export interface BoardFilter {
  from?: string | undefined;
  to?: string | undefined;
  builderId?: string | undefined;
  trade?: string | undefined;
  item?: string | undefined;
}

const when = <T>(value: T | undefined, condition: (value: T) => Prisma.Sql): Prisma.Sql =>
  value === undefined ? Prisma.empty : condition(value);

/** That an instant lies on the company's days asked about, both included. */
export const onDays = (instant: Prisma.Sql, { from, to }: BoardFilter, timezone: string): Prisma.Sql =>
  Prisma.sql`TRUE ${when(from, (day) => Prisma.sql`AND ${instant} >= ${day}::date::timestamp AT TIME ZONE ${timezone}`)}
    ${when(to, (day) => Prisma.sql`AND ${instant} < (${day}::date + 1)::timestamp AT TIME ZONE ${timezone}`)}`;

/** Which failed items (f) of houses (h) are looked at: those that failed first on the days asked about. */
export const chosenItems = (filter: BoardFilter, timezone: string): Prisma.Sql =>
  Prisma.sql`${onDays(Prisma.sql`f.opened_at`, filter, timezone)}
    ${when(filter.builderId, (id) => Prisma.sql`AND h.builder_id = ${id}::uuid`)}
    ${when(filter.trade, (trade) => Prisma.sql`AND f.trade = ${trade}`)}
    ${when(filter.item, (item) => Prisma.sql`AND f.item = ${item}`)}`;

export const window = ({ page, pageSize }: { page: number; pageSize: number }): Prisma.Sql =>
  Prisma.sql`LIMIT ${pageSize} OFFSET ${(page - 1) * pageSize}`;
