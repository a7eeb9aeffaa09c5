import type { HouseStage } from '@countercheck/contracts';
import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { measuresAgain } from '../booking-rules/index.ts';
import { companyOptions } from '../assessment/index.ts';

/** From here on a visit was submitted, so nobody's reading can lean on what was reported. */
const measured: readonly HouseStage[] = [
  'corrections',
  'reinspection_asked',
  'in_review',
  'returned',
  'released',
];

/** Whether what the installer reported is kept from this person for now: the second reading is blind. */
export async function reportedHidden(
  db: Db,
  actor: UserActor,
  { id, stage }: { id: string; stage: HouseStage },
): Promise<boolean> {
  if (actor.role !== 'rater') return false;
  if (await measuresAgain(db, actor, id)) return true;
  if (measured.includes(stage)) return false;
  return (await companyOptions(db)).blindSecondReading;
}

/** Deeds whose content tells what was reported, or lets it be worked out. */
export const tellsReported: ReadonlySet<string> = new Set(['figures signed', 'verdict changed']);
