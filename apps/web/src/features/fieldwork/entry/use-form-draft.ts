import type { Reading, VisitSheet } from '@countercheck/contracts';
import { testDefinition } from '@countercheck/measurement';
import { useMemo } from 'react';
import { today } from '../../../lib/dates.ts';
import { useMe } from '../../../lib/session.ts';
import { useUnitSystem } from '../../../lib/units/unit-system.ts';
import type { TestPlace } from '../sheet/test-places.ts';
import { draftFrom, emptyDraft } from './draft.ts';
import { offeredInstruments, usualInstrument } from './instruments.ts';
import { useDraft } from './use-draft.ts';

/** What is typed of a test on a part of the house, and the instruments that it can be done with. */
export function useFormDraft(sheet: VisitSheet, place: TestPlace, corrects: Reading | null) {
  const day = today(useMe().company.timezone);
  const system = useUnitSystem();
  const test = testDefinition(place.test);
  const offered = useMemo(
    () => offeredInstruments(sheet.instruments, test.instrumentKinds, day),
    [sheet.instruments, test, day],
  );
  const kept = useDraft(
    {
      visitId: sheet.visit.id,
      test: test.key,
      subjectId: place.subject.id,
      supersedes: corrects?.id ?? null,
    },
    () =>
      corrects
        ? draftFrom(corrects, test, system)
        : { ...emptyDraft(test), instrumentId: usualInstrument(offered, sheet.readings) },
  );
  const instrument = offered.find(({ facts }) => facts.id === kept.draft.instrumentId)?.facts ?? null;
  return { ...kept, test, day, offered, instrument };
}
