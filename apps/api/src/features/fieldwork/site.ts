import type { VisitSite } from '@countercheck/contracts';
import type { Db } from '../../kernel/database/database.ts';

/** What the request of a visit says about getting in and about what is not ready; null when nobody asked for it. */
export async function siteOf(db: Db, visitId: string): Promise<VisitSite | null> {
  const row = await db.visitRequest.findFirst({
    where: { visitId },
    select: {
      ...{ access: true, accessNote: true, openFrom: true, openTo: true, note: true },
      points: { where: { ready: false }, orderBy: { kind: 'asc' } },
    },
  });
  if (!row) return null;
  const { points, ...site } = row;
  return { ...site, notReady: points.map(({ kind, note, byName }) => ({ kind, note, byName })) };
}
