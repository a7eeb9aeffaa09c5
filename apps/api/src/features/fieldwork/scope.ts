import * as z from 'zod';
import * as assessment from '@countercheck/assessment';
import type { ItemVerdict } from '@countercheck/rules';
import type { Visit } from '@countercheck/prisma';

const pairs = z.array(z.object({ item: z.string(), subjectId: z.string() }));

/** The verdicts a visit is about; what was booked is read from its record. */
export function inScope(
  { kind, scope }: Pick<Visit, 'kind' | 'scope'>,
  verdicts: readonly ItemVerdict[],
): ItemVerdict[] {
  const booked = pairs.safeParse(scope);
  return assessment.inScope({ kind, scope: booked.success ? booked.data : null }, verdicts);
}
