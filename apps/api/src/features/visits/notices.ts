import type { MailKind } from '@countercheck/contracts';
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

/**
 * Raters and contacts who want mail of this kind. A contact who has an account says so there too; one without gets a
 * link for it.
 */
async function readers(db: Db, visit: VisitRow, raterIds: string[], kind: MailKind) {
  const wanting = { NOT: { mutedMail: { has: kind } } };
  const raters = await db.user.findMany({
    where: { id: { in: raterIds }, active: true, ...wanting },
    select: { name: true, email: true },
  });
  const builderId = visit.house.builder.id;
  const contacts = await db.builderContact.findMany({
    where: { builderId, notify: true, email: { not: null }, ...wanting },
    select: { id: true, name: true, email: true },
  });
  const accounts = await db.user.findMany({
    where: { builderId, active: true },
    select: { email: true, mutedMail: true },
  });
  return [
    ...raters,
    ...contacts.flatMap(({ id, ...contact }) => {
      const account = accounts.find(({ email }) => email === contact.email);
      if (!account) return [{ ...contact, contactId: id }];
      return account.mutedMail.includes(kind) ? [] : [contact];
    }),
  ];
}

/** Tells the rater and those of the builder who want to know. `raterIds` adds one who no longer comes. */
export async function tellOfVisit(
  db: Db,
  visit: VisitRow,
  timezone: string,
  kind: MailKind,
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
  const letters = (await readers(db, visit, raterIds, kind)).map(({ name, email, ...reader }): Letter => ({
    ...reader,
    recipient: email!,
    subject: `${address}: ${what} ${news}`,
    body: `Hello ${name},\n\n${lines.join('\n')}\n`,
    about: 'visit',
    // However often the deed is tried, of one change of a visit everybody hears once.
    uniqueKey: `visit/${visit.id}/${visit.sequence}/${kind}/${email}`,
  }));
  await queueMail(db, ...letters);
}
