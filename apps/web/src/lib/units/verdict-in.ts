import type { ItemVerdict } from '@countercheck/rules';
import { verdictIn } from '@countercheck/rules/in-units';
import { useMemo } from 'react';
import { useUnitSystem } from './unit-system.ts';

/** A verdict as it was kept, told in the units that the reader has chosen. */
export function useVerdictIn(verdict: ItemVerdict): ItemVerdict {
  const system = useUnitSystem();
  return useMemo(() => verdictIn(verdict, system), [verdict, system]);
}

/** The same of several. */
export function useVerdictsIn(verdicts: readonly ItemVerdict[]): ItemVerdict[] {
  const system = useUnitSystem();
  return useMemo(() => verdicts.map((each) => verdictIn(each, system)), [verdicts, system]);
}
