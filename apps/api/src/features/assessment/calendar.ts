import { TZDate } from '@date-fns/tz';
import { format } from 'date-fns';
import type { Company } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';

/** A date column as the calendar date it means. */
export const isoDate = (date: Date): string => date.toISOString().slice(0, 10);

/** The calendar date at the houses when something happened. */
export const dayAt = (instant: Date, timezone: string): string =>
  format(new TZDate(instant, timezone), 'yyyy-MM-dd');

export async function companyOptions(
  db: Db,
): Promise<Pick<Company, 'name' | 'timezone' | 'blindSecondReading' | 'guardBandFactor'>> {
  return db.company.findUniqueOrThrow({
    where: { id: 1 },
    select: { name: true, timezone: true, blindSecondReading: true, guardBandFactor: true },
  });
}
