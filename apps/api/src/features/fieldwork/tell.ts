import type { UnitSystem } from '@countercheck/measurement';
import type { ItemVerdict } from '@countercheck/rules';
import { verdictIn } from '@countercheck/rules/in-units';
import type { Db } from '../../kernel/database/database.ts';
import { queueMail } from '../../kernel/records/mail.ts';
import type { VisitRow } from '../visits/index.ts';

export interface StopWork {
  item: string;
  subjectLabel: string;
  words: string;
}

export function stopWorkOf(verdicts: readonly ItemVerdict[]): StopWork[] {
  return verdicts.flatMap(({ item, subjectLabel, stopWork }) =>
    stopWork === null ? [] : [{ item, subjectLabel, words: stopWork }],
  );
}

const placeOf = ({ house }: VisitRow) => `${house.address} (lot ${house.lot}, ${house.community.name})`;

const lines = (verdicts: readonly ItemVerdict[], system: UnitSystem) =>
  verdicts.map((kept) => {
    const each = verdictIn(kept, system);
    const needed = each.headline?.needed;
    return `- ${each.title}, ${each.subjectLabel}: ${each.reason}${needed ? ` Needed: ${needed}.` : ''}
  ${each.correction}`;
  });

/** The units of who gets a letter: his own where he has an account and chose some, else the company's. */
async function unitsOf(db: Db, emails: readonly string[]): Promise<(email: string) => UnitSystem> {
  const { unitSystem } = await db.company.findUniqueOrThrow({
    where: { id: 1 },
    select: { unitSystem: true },
  });
  const chosen = await db.user.findMany({
    where: { email: { in: [...emails], mode: 'insensitive' }, active: true, unitSystem: { not: null } },
    select: { email: true, unitSystem: true },
  });
  const own = new Map(chosen.map((user) => [user.email.toLowerCase(), user.unitSystem]));
  return (email) => own.get(email.toLowerCase()) ?? unitSystem;
}

/**
 * The builder's people who asked for notices learn what failed and how it is usually corrected, each in the units
 * that he reads.
 */
export async function tellBuilder(
  db: Db,
  visit: VisitRow,
  failed: readonly ItemVerdict[],
  publicUrl: string,
): Promise<void> {
  if (failed.length === 0) return;
  const contacts = await db.builderContact.findMany({
    where: { builderId: visit.house.builder.id, notify: true, email: { not: null } },
  });
  const systemOf = await unitsOf(
    db,
    contacts.map(({ email }) => email!),
  );
  const body = (system: UnitSystem) =>
    [
      `At ${placeOf(visit)} these items did not meet the programme:`,
      '',
      ...lines(failed, system),
      '',
      `Record what was corrected, with photos, and ask for a reinspection: ${publicUrl}/my-houses/${visit.houseId}`,
      '',
    ].join('\n');
  await queueMail(
    db,
    ...contacts.map(({ id, email }) => ({
      contactId: id,
      recipient: email!,
      subject: `${failed.length === 1 ? '1 item' : `${failed.length} items`} to correct: ${placeOf(visit)}`,
      body: body(systemOf(email!)),
      about: 'failed items',
    })),
  );
}

/** What cannot wait for the file to be read: the office hears of it at once. */
export async function tellOfficeOfStop(db: Db, visit: VisitRow, stops: readonly StopWork[]): Promise<void> {
  if (stops.length === 0) return;
  const office = await db.user.findMany({ where: { role: 'office', active: true }, select: { email: true } });
  const body = [
    `${visit.rater.name} submitted the visit at ${placeOf(visit)} with a stop-work finding:`,
    '',
    ...stops.map(({ subjectLabel, words }) => `- ${subjectLabel}: ${words}`),
    '',
  ].join('\n');
  await queueMail(
    db,
    ...office.map(({ email }) => ({
      recipient: email,
      subject: `Stop work: ${placeOf(visit)}`,
      body,
      about: 'stop work',
    })),
  );
}
