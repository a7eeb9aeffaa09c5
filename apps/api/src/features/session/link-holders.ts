import type { LinkAccess } from '@countercheck/contracts';
import {
  system,
  type CalendarActor,
  type ContactActor,
  type InstallerActor,
  type RecipientActor,
} from '../../kernel/actor.ts';
import type { Database } from '../../kernel/database/database.ts';
import type { LinkActors } from '../../kernel/http/implement.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { hashToken } from '../../kernel/secrets/tokens.ts';

/** Whoever holds an installer's link may speak for that installer, about that one house. */
async function installerOf(database: Database, token: string): Promise<InstallerActor> {
  const link = await database.as(system, async (db) => {
    const row = await db.installerLink.findUnique({
      where: { tokenHash: hashToken(token) },
      include: { installer: true },
    });
    const open = row && !row.revokedAt && row.expiresAt > new Date() && row.installer.active;
    if (open) await db.installerLink.update({ where: { id: row.id }, data: { lastUsedAt: new Date() } });
    return row;
  });
  if (!link) throw new AppError('link-unknown');
  if (link.revokedAt || !link.installer.active) throw new AppError('link-revoked');
  if (link.expiresAt <= new Date()) throw new AppError('link-expired');
  const { id, name } = link.installer;
  return { kind: 'installer', id, name, houseId: link.houseId, linkId: link.id };
}

/** Whoever of a builder holds a link to a readiness list may answer that one. */
async function contactOf(database: Database, token: string): Promise<ContactActor> {
  const link = await database.as(system, async (db) => {
    const row = await db.readinessLink.findUnique({
      where: { tokenHash: hashToken(token) },
      include: { request: { select: { houseId: true } } },
    });
    const open = row && !row.revokedAt && row.expiresAt > new Date();
    if (open) await db.readinessLink.update({ where: { id: row.id }, data: { lastUsedAt: new Date() } });
    return row;
  });
  if (!link) throw new AppError('link-unknown');
  if (link.revokedAt) throw new AppError('link-revoked');
  if (link.expiresAt <= new Date()) throw new AppError('link-expired');
  const { id: linkId, name, requestId } = link;
  return { kind: 'contact', linkId, name, requestId, houseId: link.request.houseId };
}

/** A programme that knows the address of a rater's calendar may read his visits, as long as he works here. */
async function calendarOf(database: Database, token: string): Promise<CalendarActor> {
  const feed = await database.as(system, async (db) => {
    const row = await db.calendarFeed.findUnique({
      // The address may end as the names of calendar files do.
      where: { tokenHash: hashToken(token.replace(/\.ics$/, '')) },
      include: { user: { select: { id: true, name: true, active: true, role: true } } },
    });
    if (row && !row.revokedAt)
      await db.calendarFeed.update({ where: { id: row.id }, data: { lastReadAt: new Date() } });
    return row;
  });
  if (!feed) throw new AppError('link-unknown');
  if (feed.revokedAt || !feed.user.active || feed.user.role !== 'rater') throw new AppError('link-revoked');
  return { kind: 'calendar', id: feed.user.id, name: feed.user.name, feedId: feed.id };
}

/** Whoever got a letter may say which letters he wants, as long as he is a contact. */
async function recipientOf(database: Database, token: string): Promise<RecipientActor> {
  const link = await database.as(system, async (db) => {
    const row = await db.contactMailLink.findUnique({
      where: { tokenHash: hashToken(token) },
      include: { contact: { select: { name: true } } },
    });
    if (row && !row.revokedAt)
      await db.contactMailLink.update({ where: { id: row.id }, data: { lastUsedAt: new Date() } });
    return row;
  });
  if (!link) throw new AppError('link-unknown');
  if (link.revokedAt) throw new AppError('link-revoked');
  return { kind: 'recipient', contactId: link.contactId, name: link.contact.name, linkId: link.id };
}

/** Works out whom a personal link speaks for. */
export const linkHolders: {
  [K in LinkAccess]: (database: Database, token: string) => Promise<LinkActors[K]>;
} = {
  'installer-link': installerOf,
  'readiness-link': contactOf,
  'calendar-link': calendarOf,
  'mail-link': recipientOf,
};
