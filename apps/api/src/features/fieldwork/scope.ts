import * as z from 'zod';
import type { ItemVerdict } from '@countercheck/rules';
import type { Visit } from '@countercheck/prisma';

const pairs = z.array(z.object({ item: z.string(), subjectId: z.string() }));

const settledElsewhere = ({ status }: ItemVerdict) => status === 'not-applicable' || status === 'exempt';

const touches = (one: ItemVerdict, other: ItemVerdict) =>
  one.subjectId === other.subjectId || one.subjectKind === 'house' || other.subjectKind === 'house';

/** The booked items, and whatever hangs on their readings now: a new fan flow changes more than its own item. */
function withDependents(verdicts: readonly ItemVerdict[], booked: z.infer<typeof pairs>): ItemVerdict[] {
  const scope = new Set(
    verdicts.filter((each) =>
      booked.some(({ item, subjectId }) => item === each.item && subjectId === each.subjectId),
    ),
  );
  for (let before = -1; before !== scope.size;) {
    before = scope.size;
    for (const each of verdicts) {
      if (each.status === 'not-applicable') continue;
      if ([...scope].some((source) => each.dependsOn.includes(source.item) && touches(each, source)))
        scope.add(each);
    }
  }
  return verdicts.filter((each) => scope.has(each));
}

/** The verdicts a visit is about. */
export function inScope(
  visit: Pick<Visit, 'kind' | 'scope'>,
  verdicts: readonly ItemVerdict[],
): ItemVerdict[] {
  if (visit.kind === 'rough') return verdicts.filter(({ stage }) => stage === 'rough');
  if (visit.kind === 'final')
    return verdicts.filter((each) => each.stage === 'final' || settledElsewhere(each));
  const booked = pairs.safeParse(visit.scope);
  return visit.kind === 'reinspection' && booked.success
    ? withDependents(verdicts, booked.data)
    : [...verdicts];
}
