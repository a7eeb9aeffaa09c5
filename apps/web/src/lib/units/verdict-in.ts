import type { ItemVerdict } from '@countercheck/rules';
import { useMemo } from 'react';
import { later, useLater } from '../later.ts';
import { useUnitSystem } from './unit-system.ts';

// Verdicts are kept in US units with the units in their words, which stand until the retelling is there.
const retelling = later(() => import('@countercheck/rules/in-units'));

/** Several verdicts as they were kept, told in the units that the reader has chosen. */
export function useVerdictsIn(verdicts: readonly ItemVerdict[]): ItemVerdict[] {
  const system = useUnitSystem();
  const { part } = useLater(retelling, system !== 'us');
  return useMemo(
    () => verdicts.map((each) => (part && system !== 'us' ? part.verdictIn(each, system) : each)),
    [verdicts, system, part],
  );
}

/** The same of one. */
export function useVerdictIn(verdict: ItemVerdict): ItemVerdict {
  const one = useMemo(() => [verdict], [verdict]);
  return useVerdictsIn(one)[0]!;
}
