import pg from 'pg';
import { startApp, type TestApp } from '../support/app.ts';
import { addRecords, type Records } from './records.ts';

export interface Scope {
  scope?: 'builder' | 'installer' | 'recipient' | 'staff';
  builder?: string;
  house?: string;
  user?: string;
}

export interface Straight {
  service: TestApp;
  records: Records;
  /** the role that the service signs in with */
  app: pg.Client;
  owner: pg.Client;
  /** Runs one statement as the scope and undoes it: the number of rows, or the SQLSTATE of the refusal. */
  as(scope: Scope, sql: string, ...values: unknown[]): Promise<number | string | null | undefined>;
  builderA: Scope;
  builderB: Scope;
  close(): Promise<void>;
}

/** Straight SQL beside the service: what holds here holds whatever a query forgets. */
export async function straightSql(): Promise<Straight> {
  const service = await startApp();
  const records = await addRecords(service);
  const connect = async (connectionString: string) => {
    const client = new pg.Client({ connectionString });
    await client.connect();
    return client;
  };
  const app = await connect(service.urls.appUrl);
  const owner = await connect(service.urls.ownerUrl);
  await owner.query(
    `INSERT INTO readings (id, house_id, visit_id, test, subject_id, raw, entered, taken_by_id, taken_at)
     SELECT gen_random_uuid(), house_id, id, 'spillage', 'house', '{}', '{}', rater_id, now() FROM visits LIMIT 1`,
  );
  return {
    ...{ service, records, app, owner },
    builderA: { scope: 'builder', builder: service.company.builder.id },
    builderB: { scope: 'builder', builder: service.company.otherBuilder.id },
    async as({ scope, builder, house, user }, sql, ...values) {
      await app.query('BEGIN');
      try {
        const settings = { scope, builder_id: builder, house_id: house, user_id: user };
        for (const [name, value] of Object.entries(settings))
          if (value !== undefined) await app.query('SELECT set_config($1, $2, true)', [`app.${name}`, value]);
        return (await app.query(sql, values)).rowCount;
      } catch (error) {
        return (error as pg.DatabaseError).code;
      } finally {
        await app.query('ROLLBACK');
      }
    },
    async close() {
      await Promise.all([app.end(), owner.end()]);
      await service.close();
    },
  };
}
