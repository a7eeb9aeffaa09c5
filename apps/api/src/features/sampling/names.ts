import type { Db } from '../../kernel/database/database.ts';

type Id = string | null | undefined;
const known = (ids: readonly Id[]) => [...new Set(ids.flatMap((id) => id ?? []))];

/** The names behind the ids of a frame, which itself names nobody. */
export async function namesOf(
  db: Db,
  ids: { users: readonly Id[]; builders: readonly Id[] },
): Promise<{ user(id: Id): string | null; builder(id: Id): string | null }> {
  const select = { id: true, name: true };
  const of = (list: readonly Id[]) => ({ where: { id: { in: known(list) } }, select });
  const asMap = (rows: { id: string; name: string }[]) => new Map(rows.map(({ id, name }) => [id, name]));
  const users = asMap(await db.user.findMany(of(ids.users)));
  const builders = asMap(await db.builder.findMany(of(ids.builders)));
  return {
    user: (id) => (id && users.get(id)) || null,
    builder: (id) => (id && builders.get(id)) || null,
  };
}
