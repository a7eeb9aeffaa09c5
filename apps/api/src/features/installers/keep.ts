import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { record } from '../../kernel/records/events.ts';
import { given } from '../../kernel/records/given.ts';
import { pageAnswer, pageWindow } from '../../kernel/records/page.ts';
import { presentInstaller } from './present.ts';

export function keepInstallers(app: FastifyInstance): void {
  implementInTransaction(app, routes.installers.list, async ({ db, query }) => {
    const part = { contains: query.search ?? '', mode: 'insensitive' as const };
    const where = query.search ? { OR: [{ name: part }, { companyName: part }] } : {};
    const rows = await db.installer.findMany({
      where,
      orderBy: [{ active: 'desc' }, { companyName: 'asc' }, { name: 'asc' }, { id: 'asc' }],
      ...pageWindow(query),
    });
    return pageAnswer(rows.map(presentInstaller), await db.installer.count({ where }), query);
  });

  implementInTransaction(app, routes.installers.register, async ({ db, actor, body, request }) => {
    const row = await db.installer.create({ data: body });
    await record(db, actor, request.id, {
      action: 'installer registered',
      recordType: 'installer',
      recordId: row.id,
      after: body,
    });
    return presentInstaller(row);
  });

  implementInTransaction(app, routes.installers.change, async ({ db, actor, params, body, request }) => {
    const before = found(await db.installer.findUnique({ where: params }), 'installer');
    const row = await db.installer.update({ where: params, data: given(body) });
    await record(db, actor, request.id, {
      action: 'installer changed',
      recordType: 'installer',
      recordId: row.id,
      before,
      after: body,
    });
    return presentInstaller(row);
  });
}
