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
  // Forms that were begun before there was a timer have none.
  timer: z.object({ path: z.string(), seconds: z.number(), until: z.number() }).nullable().default(null),
  timed: z.record(z.string(), z.number()).default({}),
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

const listeners = new Set<() => void>();
/** Tells of every change of a form: the list of work, the pad and the form itself show the same. */
export function onDraftChange(listener: () => void): () => void {
  listeners.add(listener);
  return () => void listeners.delete(listener);
}
const tell = () => {
  for (const listener of listeners) listener();
};

/** Forms that the store would not take, while the page lives. */
const unkept = new Map<string, Draft>();
/** What was read last of each form, so that asking again gives the same object. */
const read = new Map<string, { text: string; draft: Draft | null }>();

// A phone in private mode refuses storage; the form must go on working without it.
export function saveDraft(place: DraftPlace, draft: Draft, store: TextStore): boolean {
  const key = keyOf(place);
  try {
    store.setItem(key, JSON.stringify(draft));
    unkept.delete(key);
    return true;
  } catch {
    unkept.set(key, draft);
    return false;
  } finally {
    tell();
  }
}

export function loadDraft(place: DraftPlace, store: TextStore): Draft | null {
  const key = keyOf(place);
  const here = unkept.get(key);
  if (here) return here;
  try {
    const text = store.getItem(key);
    if (text === null) return null;
    const known = read.get(key);
    if (known?.text === text) return known.draft;
    const parsed = draftSchema.safeParse(JSON.parse(text));
    const draft = parsed.success ? parsed.data : null;
    read.set(key, { text, draft });
    return draft;
  } catch {
    return null;
  }
}

export function dropDraft(place: DraftPlace, store: TextStore): void {
  unkept.delete(keyOf(place));
  try {
    store.removeItem(keyOf(place));
  } catch {
    // Nothing was stored where nothing can be removed.
  }
  tell();
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
