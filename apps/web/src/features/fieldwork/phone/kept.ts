import { phoneStore } from '../../../lib/phone/store.ts';
import { Drafts } from './drafts.ts';
import { phoneOutbox, type PhoneOutbox } from './outbox-store.ts';
import { Sheets } from './sheets.ts';
import { Thumbnails } from './thumbnails.ts';

/** What a rater's phone keeps, each in its part of the one sealed store. */
export interface Kept {
  outbox: PhoneOutbox;
  sheets: Sheets;
  drafts: Drafts;
  thumbnails: Thumbnails;
}

/** The visit whose sheet is on the screen, which comes before the others. */
const lookedAt = (): string | undefined => /^\/visits\/([\w-]+)/.exec(window.location.pathname)?.[1];

/**
 * Opens all of it; throws where this browser can keep nothing. `onUnkept` hears how many half-filled forms find no room.
 */
export async function openKept(userId: string, onUnkept: (count: number) => void) {
  const store = await phoneStore();
  const kept: Kept = {
    outbox: phoneOutbox(store),
    sheets: new Sheets(store, userId),
    drafts: new Drafts(store, onUnkept),
    thumbnails: new Thumbnails(store),
  };
  const [entries] = await Promise.all([kept.outbox.read(), kept.sheets.load(lookedAt()), kept.drafts.load()]);
  return { kept, entries };
}
