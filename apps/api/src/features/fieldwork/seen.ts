import type { Seen } from '@countercheck/contracts';
import { TZDate } from '@date-fns/tz';
import { format } from 'date-fns';
import type { Db } from '../../kernel/database/database.ts';
import { AppError, type FieldProblem } from '../../kernel/problems/app-error.ts';
import { companyOptions } from '../assessment/index.ts';
import { figuresInForce } from '../installers/index.ts';
import type { VisitRow } from '../visits/index.ts';

function span(startsAt: Date, endsAt: Date, timezone: string): string {
  const at = (instant: Date, pattern: string) => format(new TZDate(instant, timezone), pattern);
  return `${at(startsAt, 'EEE d MMM, HH:mm')}–${at(endsAt, 'HH:mm')}`;
}

const signed = (revision: number | null) =>
  revision === null ? 'no signed figures' : `the installer's figures, revision ${revision}`;

/**
 * Refuses what was entered before the office moved the visit or the installer signed anew: both are named, and
 * a person decides. Nothing is refused when the phone did not say what it saw.
 */
export async function refuseChanged(db: Db, visit: VisitRow, seen: Seen | undefined): Promise<void> {
  if (!seen) return;
  const changes: FieldProblem[] = [];
  const [start, end] = [new Date(seen.startsAt), new Date(seen.endsAt)];
  if (start.getTime() !== visit.startsAt.getTime() || end.getTime() !== visit.endsAt.getTime()) {
    const { timezone } = await companyOptions(db);
    const [yours, now] = [span(start, end, timezone), span(visit.startsAt, visit.endsAt, timezone)];
    changes.push({ path: 'visit', message: `You had the visit at ${yours}; the office moved it to ${now}.` });
  }
  // A second measurement is read against nothing, and its sheet says so.
  const inForce = visit.kind === 'quality' ? null : await figuresInForce(db, visit.houseId);
  const revision = inForce?.revision ?? null;
  if (revision !== seen.figuresRevision)
    changes.push({
      path: 'figures',
      message: `You read against ${signed(seen.figuresRevision)}; now there is ${signed(revision)}.`,
    });
  if (changes.length > 0)
    throw new AppError('changed-meanwhile', changes.map(({ message }) => message).join(' '), changes);
}
