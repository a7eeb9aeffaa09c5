/** Values that a reading gave, by reading, as they were released or as they come out now. */
export interface ReadingFigures {
  readingId: string;
  values: readonly { key: string; label: string; value: number; unit: string }[];
}

export interface FigureDifference {
  readingId: string;
  label: string;
  unit: string;
  released: number | null;
  again: number | null;
}

// Two floats of the same sum in another order; nobody could read a smaller difference off anything.
const negligible = 1e-9;
const same = (a: number, b: number) => Math.abs(a - b) <= negligible * Math.max(1, Math.abs(a), Math.abs(b));

/**
 * Where the figures of a released file are not those that its raw readings give now, in stored units. A value that
 * only one side has is a difference too; a reading that came after the release is not. Values that differ by no more
 * than 1e-9 of themselves are the same. Pure; never throws.
 */
export function figureDifferences(
  released: readonly ReadingFigures[],
  again: readonly ReadingFigures[],
): FigureDifference[] {
  const now = new Map(again.map((each) => [each.readingId, each.values]));
  return released.flatMap(({ readingId, values }) => {
    const others = now.get(readingId) ?? [];
    const keys = [...new Set([...values, ...others].map(({ key }) => key))];
    return keys.flatMap((key) => {
      const one = values.find((each) => each.key === key);
      const other = others.find((each) => each.key === key);
      if (one && other && same(one.value, other.value)) return [];
      const { label, unit } = (one ?? other)!;
      return [{ readingId, label, unit, released: one?.value ?? null, again: other?.value ?? null }];
    });
  });
}
