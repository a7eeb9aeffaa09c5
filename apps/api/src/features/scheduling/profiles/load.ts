import type { RaterProfile, WorkingHours } from '@countercheck/contracts';
import type { Qualification } from '@countercheck/assessment';
import type { Db } from '../../../kernel/database/database.ts';
import { heldRaters } from '../../booking-rules/index.ts';

/** Until somebody says otherwise: Monday to Friday. */
const usualHours: WorkingHours = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '08:00', to: '16:30' }));

/** Raters who work here, with their hours, training and kit; `to` asks who is held for visits that begin before it. */
export async function loadProfiles(db: Db, to: Date, raterId?: string): Promise<RaterProfile[]> {
  const rows = await db.user.findMany({
    where: { role: 'rater', ...(raterId ? { id: raterId } : { active: true }) },
    include: {
      profile: true,
      carries: {
        where: { active: true },
        select: { id: true, label: true, kind: true },
        orderBy: [{ kind: 'asc' }, { label: 'asc' }],
      },
    },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  });
  // Earliest first; of several holds the one that comes first counts.
  const holds = await heldRaters(db, { to });
  // Earliest first; of several holds of a rater the one that comes first counts.
  const held = new Map(holds.toReversed().map((hold) => [hold.raterId, hold]));
  return rows.map(({ id, name, profile, carries }) => ({
    rater: { id, name },
    qualifications: (profile?.qualifications ?? []) as Qualification[],
    workingHours: (profile?.workingHours ?? usualHours) as WorkingHours,
    breakMinutes: profile?.breakMinutes ?? 30,
    startsAtHome: profile?.startsAtHome ?? true,
    homeLatitude: profile?.homeLatitude ?? null,
    homeLongitude: profile?.homeLongitude ?? null,
    instrumentIds: carries.map((each) => each.id),
    instruments: carries,
    held: held.get(id)?.reason ?? null,
    heldFrom: held.get(id)?.from.toISOString() ?? null,
  }));
}
