import type { HouseFile } from '@countercheck/assessment';
import type { Actor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';

/** Reads one house as the plain data that the assessment package works on. */
export async function loadHouseFile(_db: Db, _houseId: string): Promise<HouseFile> {
  throw new Error('being written');
}

/** Computes every verdict of a house again from the raw readings and stores what changed, in this transaction. */
export async function reassess(
  _db: Db,
  _actor: Actor,
  _requestId: string | null,
  _houseId: string,
): Promise<void> {
  throw new Error('being written');
}
