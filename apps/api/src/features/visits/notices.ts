import type { Db } from '../../kernel/database/database.ts';
import { queueMail, type Letter } from '../../kernel/records/mail.ts';
import type { VisitRow } from './present.ts';
import { whenInWords } from './days.ts';

const kindWords = {
  rough: 'rough-in visit',
  final: 'final visit',
  reinspection: 'reinspection',
  quality: 'quality visit',
} as const;

async function readers(db: Db, visit: VisitRow, raterIds: string[]) {
  const raters = await db.user.findMany({
    where: { id: { in: raterIds }, active: true },
    select: { name: true, email: true },
  });
  const contacts = await db.builderContact.findMany({
    where: { builderId: visit.house.builder.id, notify: true, email: { not: null } },
    select: { name: true, email: true },
  });
  return [...raters, ...contacts];
}

/** Tells the rater and those of the builder who want to know. `raterIds` adds one who no longer comes. */
export async function tellOfVisit(
  db: Db,
  visit: VisitRow,
  timezone: string,
  news: string,
  { alsoRaterId, cause }: { alsoRaterId?: string; cause?: string } = {},
): Promise<void> {
  const { address, lot, community } = visit.house;
  const what = kindWords[visit.kind];
  const lines = [
    `${address}, lot ${lot}, ${community.name}`,
    `${what} ${news}`,
    `Time: ${whenInWords(visit, timezone)} (${timezone})`,
    `Rater: ${visit.rater.name}`,
    ...(cause ? [`Reason: ${cause}`] : []),
  ];
  const raterIds = [visit.rater.id, ...(alsoRaterId ? [alsoRaterId] : [])];
  const letters = (await readers(db, visit, raterIds)).map(({ name, email }): Letter => ({
    recipient: email!,
    subject: `${address}: ${what} ${news}`,
    body: `Hello ${name},\n\n${lines.join('\n')}\n`,
    about: 'visit',
  }));
  await queueMail(db, ...letters);
}
