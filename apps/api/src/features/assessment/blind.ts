import { subjectsOf, type HouseFile } from '@countercheck/assessment';
import { testDefinitions, type TestKey } from '@countercheck/measurement';
import { reportedFigures, type RuleSet } from '@countercheck/rules';

/** Tests that one item takes as alternatives to each other: reading one of them ends the hiding. */
function alternatives(set: RuleSet, test: TestKey): Set<TestKey> {
  return new Set([
    test,
    ...set.items.filter((item) => item.tests.includes(test)).flatMap((item) => item.tests),
  ]);
}

/**
 * Takes out of the file the figures that a rater has not yet measured himself, so that what he reads cannot
 * lean on what was reported. They are removed, not marked: what is sent can be read on any phone.
 */
export function hideUnread(file: HouseFile, set: RuleSet): HouseFile {
  const asked = new Set(set.items.flatMap((item) => item.tests));
  const read = (test: TestKey, subjectId: string) => {
    const enough = alternatives(set, test);
    return file.readings.some((reading) => enough.has(reading.test) && reading.subjectId === subjectId);
  };
  const reported = structuredClone(file.reported);
  const earlierFigures = structuredClone(file.earlierFigures);
  const hidden = new Map<string, HouseFile['hidden'][number]>();
  for (const figure of reportedFigures) {
    for (const test of figure.tests.filter((key) => asked.has(key))) {
      for (const { id: subjectId, kind } of subjectsOf(file)) {
        if (kind !== testDefinitions[test].subject || read(test, subjectId)) continue;
        hidden.set(`${test}/${subjectId}`, { test, subjectId });
        for (const { figures } of [{ figures: reported }, ...(earlierFigures ?? [])])
          delete figures[subjectId]?.[figure.key];
      }
    }
  }
  return { ...file, reported, ...(earlierFigures ? { earlierFigures } : {}), hidden: [...hidden.values()] };
}
