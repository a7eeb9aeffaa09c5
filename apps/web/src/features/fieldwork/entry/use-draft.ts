import { useState } from 'react';
import { usePhone } from '../phone/use-phone.ts';
import { changed, type Draft } from './draft.ts';
import { dropDraft, loadDraft, saveDraft, type DraftPlace } from './draft-store.ts';

/** A form's content, kept on the device with every keystroke until its reading is recorded. */
export function useDraft(place: DraftPlace, begin: () => Draft) {
  const store = usePhone().phone?.drafts ?? localStorage;
  const [kept, setKept] = useState(() => {
    const waiting = loadDraft(place, store);
    return { draft: waiting ?? begin(), resumed: waiting !== null };
  });
  const keep = (draft: Draft) => {
    saveDraft(place, draft, store);
    setKept({ ...kept, draft });
    return draft;
  };
  const change = (changes: Partial<Draft>) => void keep(changed(kept.draft, changes));
  /** fixes the moment of the reading with the first attempt to send it */
  const stamp = (now: string) =>
    kept.draft.takenAt === null ? keep({ ...kept.draft, takenAt: now }) : kept.draft;
  const clear = () => {
    dropDraft(place, store);
    setKept({ draft: begin(), resumed: false });
  };
  return { draft: kept.draft, resumed: kept.resumed, change, stamp, clear };
}
