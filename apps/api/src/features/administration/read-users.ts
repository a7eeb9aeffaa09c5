import type { FastifyInstance } from 'fastify';
import type { Prisma } from '@countercheck/prisma';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import { presentUser, withSessions } from './present.ts';

export function readUsers(app: FastifyInstance): void {
  implementInTransaction(app, routes.administration.users, async ({ db, query }) => {
    const contains = query.search && { contains: query.search, mode: 'insensitive' as const };
    const where: Prisma.UserWhereInput = {
      ...(query.role ? { role: query.role } : {}),
      ...(query.active === undefined ? {} : { active: query.active }),
      ...(contains ? { OR: [{ name: contains }, { email: contains }] } : {}),
    };
    const rows = await db.user.findMany({
      where,
      include: withSessions(),
      orderBy: [{ name: 'asc' }, { id: 'asc' }],
      ...pageWindow(query),
    });
    return pageAnswer(rows.map(presentUser), await db.user.count({ where }), query);
  });
}
