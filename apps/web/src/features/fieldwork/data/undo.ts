import type { Reading } from '@countercheck/contracts';
import { testDefinition } from '@countercheck/measurement';
import { useUnitSystem } from '../../../lib/units/unit-system.ts';
import { draftFrom } from '../entry/draft.ts';
import { dropDraft, saveDraft } from '../entry/draft-store.ts';
import { canWithdraw } from '../outbox/entry.ts';
import { usePhone } from '../phone/use-phone.ts';

/**
 * How a reading that has not been sent is taken back, with what was typed back in its form; null when it may be at
 * the service already and is corrected with a reason instead.
 */
export function useUndo(): (reading: Reading) => (() => Promise<void>) | null {
  const { phone, state } = usePhone();
  const system = useUnitSystem();
  return (reading) => {
    const entry = state.entries.find(({ id }) => id === reading.id);
    if (!phone || !entry || !canWithdraw(entry)) return null;
    return async () => {
      const { visitId, test, subjectId, supersedesId, supersedeReason } = reading;
      const draft = draftFrom(reading, testDefinition(test), system);
      const place = { visitId, test, subjectId, supersedes: supersedesId };
      // First, so that the form finds it when the reading is gone from the sheet.
      saveDraft(place, { ...draft, supersedeReason: supersedeReason ?? '' }, phone.drafts);
      if (!(await phone.withdraw(reading.id))) dropDraft(place, phone.drafts);
    };
  };
}
