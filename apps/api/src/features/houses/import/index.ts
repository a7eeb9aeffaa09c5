import type { FastifyInstance } from 'fastify';
import { routes } from '@countercheck/contracts';
import { implement, implementInTransaction } from '../../../kernel/http/implement.ts';
import { AppError, found, type FieldProblem } from '../../../kernel/problems/app-error.ts';
import { record } from '../../../kernel/records/events.ts';
import { pageAnswer, pageWindow } from '../../../kernel/records/page.ts';
import { askRun, presentRun } from '../../../kernel/runs/ask.ts';
import { startRunner } from '../../../kernel/runs/runner.ts';
import { ruleSetFor } from '../belonging.ts';
import { checkImport, type CheckedFile } from './check.ts';
import { judgeImported } from './judge.ts';
import { storeHouses } from './store.ts';

const mostNamed = 100;
/** 5,000 houses with their parts and events took half a minute on a busy machine; a minute would leave no room. */
const storingTimeoutMs = 300_000;

function refuseErrors({ rows, problems }: CheckedFile): void {
  const bad = rows.filter((row) => row.problems.length > 0);
  if (problems.length === 0 && bad.length === 0) return;
  const fields = [
    ...problems.map((message): FieldProblem => ({ path: 'file', message })),
    ...bad.flatMap(({ line, problems: found }) =>
      found.map(({ column, message }) => ({ path: `line ${line}${column ? ` ${column}` : ''}`, message })),
    ),
  ];
  const detail =
    bad.length > 0
      ? `${bad.length} of ${rows.length} rows cannot be loaded; nothing was loaded.`
      : 'The file cannot be loaded; nothing was loaded.';
  throw new AppError('import-has-errors', detail, fields.slice(0, mostNamed));
}

export function importHouses(app: FastifyInstance): void {
  const runner = startRunner(app, judgeImported(app.database, app.log));
  implementInTransaction(app, routes.houses.previewImport, async ({ db, body }) => {
    found(await db.builder.findUnique({ where: { id: body.builderId } }), 'builder');
    const { rows, problems } = await checkImport(db, body.builderId, body.csv);
    const bad = rows.filter((row) => row.problems.length > 0).length;
    return {
      rows: rows.map(({ line, cells, problems: of }) => ({ line, values: { ...cells }, problems: of })),
      good: rows.length - bad,
      bad,
      problems,
    };
  });

  implement(app, routes.houses.import, async ({ database, actor, body, request }) => {
    const answer = await database.as(
      actor,
      async (db) => {
        // Two imports of one file at once: the second waits here and then finds the lots registered.
        await db.$queryRaw`SELECT id FROM builders WHERE id = ${body.builderId}::uuid FOR NO KEY UPDATE`;
        const builder = found(await db.builder.findUnique({ where: { id: body.builderId } }), 'builder');
        const checked = await checkImport(db, builder.id, body.csv);
        refuseErrors(checked);
        const houses = checked.rows.flatMap(({ house }) => house ?? []);
        const ruleSetId = await ruleSetFor(db, undefined);
        const { id: importId } = await askRun(db, actor, 'import');
        await db.houseImport.create({ data: { id: importId, builderId: builder.id, count: houses.length } });
        await storeHouses(db, actor, request.id, { ruleSetId, importId }, houses);
        await record(db, actor, request.id, {
          action: 'houses imported',
          recordType: 'builder',
          recordId: builder.id,
          after: { houses: houses.length },
        });
        return { created: houses.length, importId };
      },
      { timeoutMs: storingTimeoutMs },
    );
    runner.wake();
    return answer;
  });

  implementInTransaction(app, routes.houses.imports, async ({ db, query }) => {
    const rows = await db.houseImport.findMany({
      include: { run: true, builder: { select: { id: true, name: true } } },
      orderBy: [{ run: { askedAt: 'desc' } }, { id: 'desc' }],
      ...pageWindow(query),
    });
    const items = rows.map(({ run, builder, count }) => ({ ...presentRun(run), builder, houses: count }));
    return pageAnswer(items, await db.houseImport.count(), query);
  });
}
