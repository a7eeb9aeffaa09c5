import type { HouseStage } from '@countercheck/contracts';
import type { UserActor } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
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
  { stage }: { stage: HouseStage },
): Promise<boolean> {
  if (actor.role !== 'rater' || measured.includes(stage)) return false;
  return (await companyOptions(db)).blindSecondReading;
}

/** Deeds whose content tells what was reported, or lets it be worked out. */
export const tellsReported: ReadonlySet<string> = new Set(['figures signed', 'verdict changed']);
