import type { Db } from '../../kernel/database/database.ts';

/** The database's time, so that the steps of a draw stand in order whichever process took them. */
export async function databaseTime(db: Db): Promise<Date> {
  const [row] = await db.$queryRaw<
    { now: Date }[]
  >`SELECT date_trunc('milliseconds', clock_timestamp()) AS now`;
  return row!.now;
}
