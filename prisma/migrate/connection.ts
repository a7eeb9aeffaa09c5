import { PrismaPg } from '@prisma/adapter-pg';
import {
  ColumnTypeEnum,
  type SqlMigrationAwareDriverAdapterFactory,
  type SqlResultSet,
} from '@prisma/driver-adapter-utils';
import pg from 'pg';

const ownCharacter = 18;
const text = 25;
const mark = '\u0000character:';

/**
 * The adapter cannot hand over the catalogue's own one-byte type, and the engine wants it as a character, not
 * as a text. So it travels as a text under a marked name, and the mark is read on the other side.
 */
class CataloguePool extends pg.Pool {
  override query = async (...args: unknown[]): Promise<never> => {
    const run = pg.Pool.prototype.query as unknown as (...all: unknown[]) => Promise<pg.QueryResult>;
    const result = await run.apply(this, args);
    for (const field of result.fields ?? []) {
      if (field.dataTypeID !== ownCharacter) continue;
      field.dataTypeID = text;
      field.name = `${mark}${field.name}`;
    }
    return result as never;
  };
}

function withCharacters(result: SqlResultSet): SqlResultSet {
  const marked = (index: number) => result.columnNames[index]?.startsWith(mark) === true;
  return {
    ...result,
    columnTypes: result.columnTypes.map((type, index) => (marked(index) ? ColumnTypeEnum.Character : type)),
    columnNames: result.columnNames.map((name, index) => (marked(index) ? name.slice(mark.length) : name)),
  };
}

/** What the engine connects through, and a way to close everything it opened: it never does so itself. */
export function connections(url: string): {
  factory: SqlMigrationAwareDriverAdapterFactory;
  close(): Promise<void>;
} {
  const pools: pg.Pool[] = [];
  const connect = async () => {
    const pool = new CataloguePool({ connectionString: url, options: '-c timezone=UTC' });
    pools.push(pool);
    const adapter = await new PrismaPg(pool).connect();
    // The adapter cuts a script at every semicolon, also inside a function body. Sent whole, the server parses it.
    adapter.executeScript = async (script) => {
      await adapter.executeRaw({ sql: script, args: [], argTypes: [] });
    };
    const queryRaw = adapter.queryRaw.bind(adapter);
    adapter.queryRaw = async (query) => withCharacters(await queryRaw(query));
    return adapter;
  };
  return {
    factory: {
      provider: 'postgres',
      adapterName: '@prisma/adapter-pg',
      connect,
      connectToShadowDb: () =>
        Promise.reject(new Error('A new migration is worked out in create.ts instead.')),
    },
    async close() {
      await Promise.all(pools.map((pool) => pool.end()));
    },
  };
}
