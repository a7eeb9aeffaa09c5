import type { Reading } from '@countercheck/contracts';
import { later } from '../../../lib/later.ts';
import { useUnitSystem } from '../../../lib/units/unit-system.ts';
import { dropDraft, loadDraft, saveDraft } from '../entry/draft-store.ts';
import { canWithdraw, type Entry } from '../outbox/entry.ts';
import type { Content } from '../phone/content.ts';
import { usePhone } from '../phone/use-phone.ts';

/** It names every field of every test, which nobody waits for who takes nothing back. */
const laterRefill = later(() => import('./refill.ts'));

/**
 * Takes an entry back that has not been sent, or that the service refused. What was typed for a reading is in its form
 * again, unless something newer is typed there. Gives false when it was sent at that moment.
 */
export function useTakeBack(): (entry: Entry<Content>) => Promise<boolean> {
  const { phone } = usePhone();
  const system = useUnitSystem();
  return async ({ id, content }) => {
    if (!phone) return false;
    if (content.kind !== 'reading') return phone.withdraw(id);
    const { place, draft } = (await laterRefill.load()).refilled(content, system);
    if (loadDraft(place, phone.drafts)) return phone.withdraw(id);
    // First, so that the form finds it when the reading is gone from the sheet.
    saveDraft(place, draft, phone.drafts);
    const gone = await phone.withdraw(id);
    if (!gone) dropDraft(place, phone.drafts);
    return gone;
  };
}

/**
 * How a reading that has not been sent is taken back; null when it may be at the service already and is corrected with
 * a reason instead.
 */
export function useUndo(): (reading: Reading) => (() => Promise<boolean>) | null {
  const { state } = usePhone();
  const takeBack = useTakeBack();
  return (reading) => {
    const entry = state.entries.find(({ id }) => id === reading.id);
    return entry && canWithdraw(entry) ? () => takeBack(entry) : null;
  };
}
