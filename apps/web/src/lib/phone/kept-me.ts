import type { Me } from '@countercheck/contracts';
import { phoneStore } from './store.ts';

/** Remembers who is signed in, so that the app opens where there is no network. */
export async function keepMe(me: Me): Promise<void> {
  await (await phoneStore()).put('me', me);
}

export async function keptMe(): Promise<Me | null> {
  return (await phoneStore()).get<Me>('me');
}

export async function dropMe(): Promise<void> {
  await (await phoneStore()).db.delete('kept', 'me');
}
