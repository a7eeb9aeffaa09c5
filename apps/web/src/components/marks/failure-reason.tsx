import type { FailedItem } from '@countercheck/contracts';
import { useFailureIn } from '../../lib/units/failure-in.ts';

/** By how much an item failed, in the reader's units. */
export function FailureReason({ item }: { item: FailedItem }) {
  return useFailureIn(item).reason;
}
