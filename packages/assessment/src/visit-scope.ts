import type { ItemVerdict } from '@countercheck/rules';

/** What a visit was booked for. */
export interface VisitScope {
  kind: 'rough' | 'final' | 'reinspection' | 'quality';
  /** of a reinspection: the items that come up, as it was booked */
  scope: readonly { item: string; subjectId: string }[] | null;
}

const settledElsewhere = ({ status }: ItemVerdict) => status === 'not-applicable' || status === 'exempt';

const touches = (one: ItemVerdict, other: ItemVerdict) =>
  one.subjectId === other.subjectId || one.subjectKind === 'house' || other.subjectKind === 'house';

/** The booked items, and whatever hangs on their readings now: a new fan flow changes more than its own item. */
function withDependents(
  verdicts: readonly ItemVerdict[],
  booked: readonly { item: string; subjectId: string }[],
): ItemVerdict[] {
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

/**
 * The verdicts a visit is about, the same on the server and on the phone: of a rough or a final visit those of its
 * stage, of a reinspection those booked with what hangs on them, of any other all. Never fails.
 */
export function inScope({ kind, scope }: VisitScope, verdicts: readonly ItemVerdict[]): ItemVerdict[] {
  if (kind === 'rough') return verdicts.filter(({ stage }) => stage === 'rough');
  if (kind === 'final') return verdicts.filter((each) => each.stage === 'final' || settledElsewhere(each));
  return kind === 'reinspection' && scope ? withDependents(verdicts, scope) : [...verdicts];
}
