import type { Me } from '@countercheck/contracts';
import { clearPhone } from '../../../lib/phone/store.ts';
import { phoneOf } from './phone.ts';

/**
 * Clears the phone before its rater signs out. While anything waits nothing is cleared, whoever entered it; gives
 * how much that is.
 */
export async function leavePhone(me: Pick<Me, 'id' | 'name' | 'company'>): Promise<number> {
  const phone = phoneOf(me);
  if (phone.state.problem) return 0;
  await phone.opened;
  const waiting = phone.state.entries.length;
  if (waiting === 0) await clearPhone();
  return waiting;
}
