import { useState, useSyncExternalStore } from 'react';
import { usePhone } from '../phone/use-phone.ts';
import { changed, type Draft } from './draft.ts';
import { dropDraft, loadDraft, onDraftChange, saveDraft, type DraftPlace } from './draft-store.ts';

/** A form's content, kept on the device with every keystroke until its reading is recorded; one wherever it is shown. */
export function useDraft(place: DraftPlace, begin: () => Draft) {
  const store = usePhone().phone?.drafts ?? localStorage;
  const kept = useSyncExternalStore(onDraftChange, () => loadDraft(place, store));
  const [resumed, setResumed] = useState(kept !== null);
  const [blank, setBlank] = useState(begin);
  const now = () => loadDraft(place, store) ?? blank;
  const keep = (draft: Draft) => {
    saveDraft(place, draft, store);
    return draft;
  };
  const change = (changes: Partial<Draft>) => void keep(changed(now(), changes));
  /** fixes the moment of the reading with the first attempt to send it */
  const stamp = (moment: string) => {
    const draft = now();
    return draft.takenAt === null ? keep({ ...draft, takenAt: moment }) : draft;
  };
  const clear = () => {
    dropDraft(place, store);
    setBlank(begin());
    setResumed(false);
  };
  return { draft: kept ?? blank, resumed, change, stamp, clear };
}
