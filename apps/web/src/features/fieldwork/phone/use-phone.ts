import { useSyncExternalStore } from 'react';
import { useMe } from '../../../lib/session.ts';
import { phoneOf, type Phone } from './phone.ts';
import { phoneless, type PhoneState } from './state.ts';

const never = () => () => undefined;

/** The phone of the rater signed in, and what is on it now; null for whoever measures nothing. */
export function usePhone(): { phone: Phone | null; state: PhoneState } {
  const me = useMe();
  const phone = me.role === 'rater' ? phoneOf(me) : null;
  const state = useSyncExternalStore(phone?.subscribe ?? never, () => phone?.state ?? phoneless);
  return { phone: state.problem ? null : phone, state };
}
