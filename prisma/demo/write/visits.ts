import type { Prisma } from '../../generated/client.ts';
import type { Calendar } from '../calendar.ts';
import type { Story } from '../stories.ts';
import type { Cast } from './people.ts';

type Db = Prisma.TransactionClient;

/** Visits and every raw reading of them. */
export async function writeVisits(db: Db, stories: Story[], cast: Cast, calendar: Calendar): Promise<void> {
  await db.visit.createMany({
    data: stories.flatMap(({ house, visits, registeredAt }) =>
      visits.map(({ id, kind, rater, startsAt, endsAt, state, submittedAt, readings }, i) => ({
        id,
        houseId: house.id,
        raterId: cast.raters[rater]!.id,
        kind,
        state,
        startsAt,
        endsAt,
        submittedAt,
        startedAt: readings[0]?.takenAt ?? null,
        createdAt:
          i === 0
            ? new Date(Math.min(startsAt.getTime() - 86_400_000, calendar.today.getTime()))
            : (visits[0]?.submittedAt ?? registeredAt),
        ...(kind === 'reinspection'
          ? { scope: (visits[0]?.failed ?? []).map(({ item, subjectId }) => ({ item, subjectId })) }
          : {}),
      })),
    ),
  });
  await db.reading.createMany({
    data: stories.flatMap(({ house, visits }) =>
      visits.flatMap((visit) =>
        visit.readings.map(({ file, instrument, takenAt, entered, supersedesId }) => ({
          id: file.id,
          houseId: house.id,
          visitId: visit.id,
          test: file.test,
          subjectId: file.subjectId,
          raw: file.raw as unknown as Prisma.InputJsonValue,
          entered,
          conditions: {},
          instrumentId: instrument?.id ?? null,
          calibrationId: instrument?.calibrationId ?? null,
          takenById: cast.raters[visit.rater]!.id,
          takenAt,
          receivedAt: new Date(takenAt.getTime() + 20_000),
          supersedesId,
          supersedeReason: supersedesId ? 'Read again after the correction' : null,
        })),
      ),
    ),
  });
}
