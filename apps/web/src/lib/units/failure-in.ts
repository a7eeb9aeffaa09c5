import type { FailedItem } from '@countercheck/contracts';
import { useUnitSystem } from './unit-system.ts';

/** By how much an item failed and what would do, in the reader's units where they can be told. */
export function useFailureIn({ reason, needed, inSi }: FailedItem): Pick<FailedItem, 'reason' | 'needed'> {
  const system = useUnitSystem();
  return system === 'si' && inSi ? inSi : { reason, needed };
}
