import type { ItemVerdict } from '@countercheck/rules';
import { useVerdictIn } from '../../lib/units/verdict-in.ts';

/** Why a verdict is what it is, in the reader's units. */
export function Reason({ verdict }: { verdict: ItemVerdict }) {
  return <span className="soft">{useVerdictIn(verdict).reason}</span>;
}
