import { useState } from 'react';
import type { Draft } from './draft.ts';
import { dropDraft, loadDraft, saveDraft, type DraftPlace } from './draft-store.ts';

/** A form's content, kept in the browser with every keystroke until its reading is recorded. */
export function useDraft(place: DraftPlace, begin: () => Draft) {
  const [kept, setKept] = useState(() => {
    const waiting = loadDraft(place, localStorage);
    return { draft: waiting ?? begin(), resumed: waiting !== null };
  });
  const change = (changes: Partial<Draft>) => {
    const draft = { ...kept.draft, ...changes };
    saveDraft(place, draft, localStorage);
    setKept({ ...kept, draft });
  };
  const clear = () => {
    dropDraft(place, localStorage);
    setKept({ draft: begin(), resumed: false });
  };
  return { draft: kept.draft, resumed: kept.resumed, change, clear };
}
