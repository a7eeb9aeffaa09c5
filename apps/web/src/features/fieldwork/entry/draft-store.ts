import * as z from 'zod';
import type { Draft } from './draft.ts';

const typed = z.record(z.string(), z.object({ text: z.string(), system: z.enum(['us', 'si']) }));
const choices = z.record(z.string(), z.string());
const draftSchema = z.object({
  id: z.string(),
  takenAt: z.string().nullable(),
  typed,
  choices,
  rows: z.array(z.object({ key: z.string(), label: z.string(), typed, choices })),
  confirmations: z.record(z.string(), z.boolean()),
  instrumentId: z.string().nullable(),
  note: z.string(),
  supersedeReason: z.string(),
});

export interface DraftPlace {
  visitId: string;
  test: string;
  subjectId: string;
  /** the reading being corrected, or null for a new one */
  supersedes: string | null;
}

/** Where half-filled forms wait; the browser's storage in use, a plain map in tests. */
export type TextStore = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

const ofVisit = (visitId: string) => `sheet-draft:${visitId}:`;
const keyOf = (place: DraftPlace) =>
  `${ofVisit(place.visitId)}${place.test}:${place.subjectId}:${place.supersedes ?? 'new'}`;

// A phone in private mode refuses storage; the form must go on working without it.
export function saveDraft(place: DraftPlace, draft: Draft, store: TextStore): boolean {
  try {
    store.setItem(keyOf(place), JSON.stringify(draft));
    return true;
  } catch {
    return false;
  }
}

export function loadDraft(place: DraftPlace, store: TextStore): Draft | null {
  try {
    const kept = store.getItem(keyOf(place));
    const read = kept === null ? null : draftSchema.safeParse(JSON.parse(kept));
    return read?.success ? read.data : null;
  } catch {
    return null;
  }
}

export function dropDraft(place: DraftPlace, store: TextStore): void {
  try {
    store.removeItem(keyOf(place));
  } catch {
    // Nothing was stored where nothing can be removed.
  }
}

/** How many forms of a visit are typed but not recorded. */
export function draftsWaiting(visitId: string, store: Pick<Storage, 'length' | 'key'>): number {
  try {
    const keys = Array.from({ length: store.length }, (_, i) => store.key(i) ?? '');
    return keys.filter((key) => key.startsWith(ofVisit(visitId))).length;
  } catch {
    return 0;
  }
}
